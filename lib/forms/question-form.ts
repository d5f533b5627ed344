import * as z from 'zod'
import {
  likingQuestion,
  questionKinds,
  questionLimits,
  questionProblem,
  type Question,
  type QuestionProblem,
} from '@/lib/panel/question'

/** What is wrong with one question, in words. */
export const sayQuestionProblem: Readonly<Record<QuestionProblem, string>> = {
  'words-too-few': `Give ${questionLimits.words.least} to ${questionLimits.words.most} words to tick, one a line or with commas between.`,
  'words-twice': 'Each word is offered once.',
  'ends-alike': 'The two ends of a scale have different words.',
}

const short = (most: number, what: string) =>
  z.string().trim().max(most, `Please keep ${what} under ${most} characters.`).optional()

/** One question as it stands on the plan: its row is blank while it has no name. */
const Typed = z.object({
  name: short(questionLimits.name, 'each question'),
  kind: z.enum(questionKinds).default('liking-9'),
  low: short(questionLimits.name, 'each end'),
  high: short(questionLimits.name, 'each end'),
  /** one word a line, or with commas between */
  words: z.string().max(600, 'That is more than fits on a phone.').optional(),
})

/** A further question; a plain text is a liking, as drafts keep it that were typed before there were other kinds. */
export const QuestionForm = z
  .union([short(questionLimits.name, 'each question').transform((name) => ({ name })), Typed])
  .transform((typed, context): Question | null => {
    const refuse = (field: string, message: string) => context.addIssue({ code: 'custom', path: [field], message })
    const { name } = typed
    if (!name) {
      if ('words' in typed && typed.words?.trim())
        refuse('name', 'What are these words asked under? Give the question a name.')
      return null
    }
    if (!('kind' in typed)) return likingQuestion(name)
    const question = asked({ ...typed, name })
    const long = question.words.find((word) => word.length > questionLimits.word)
    if (long !== undefined)
      refuse(
        'words',
        `Please keep each word under ${questionLimits.word} characters: “${long.slice(0, questionLimits.word)}…”.`,
      )
    const problem = questionProblem(question)
    if (problem !== null) refuse(problem === 'ends-alike' ? 'high' : 'words', sayQuestionProblem[problem])
    return question
  })

function asked({ name, kind, low, high, words = '' }: z.infer<typeof Typed> & { readonly name: string }): Question {
  if (kind === 'liking-9') return likingQuestion(name)
  if (kind !== 'words') return { name, kind, low: low || null, high: high || null, words: [] }
  return { name, kind, low: null, high: null, words: words.split(/[\n,;]/).flatMap((word) => word.trim() || []) }
}
