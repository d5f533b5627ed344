import * as z from 'zod'
import { likingQuestion, questionKinds, questionLimits, type Question } from '@/lib/panel/question'

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
    const { name } = typed
    if (!name) {
      if ('words' in typed && typed.words?.trim())
        context.addIssue({ code: 'custom', message: 'What are these words asked under? Give the question a name.' })
      return null
    }
    if (!('kind' in typed)) return likingQuestion(name)
    const { kind, low, high } = typed
    if (kind === 'liking-9') return likingQuestion(name)
    if (kind !== 'words') return { name, kind, low: low || null, high: high || null, words: [] }
    const words = (typed.words ?? '').split(/[\n,;]/).flatMap((word) => word.trim() || [])
    const long = words.find((word) => word.length > questionLimits.word)
    if (long !== undefined)
      context.addIssue({
        code: 'custom',
        message: `Please keep each word under ${questionLimits.word} characters: “${long.slice(0, questionLimits.word)}…”.`,
      })
    return { name, kind, low: null, high: null, words }
  })
