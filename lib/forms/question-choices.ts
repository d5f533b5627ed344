import {
  intensityEnds,
  justRightSteps,
  questionLimits,
  secondsPerCup,
  usualEnds,
  type Question,
  type QuestionKind,
} from '@/lib/panel/question'

/** Kinds of question as the plan offers them. */
export const questionChoices: readonly { readonly value: QuestionKind; readonly words: string }[] = [
  { value: 'liking-9', words: 'How it is liked, on the nine steps' },
  { value: 'just-right-5', words: 'Too little, just right, too much' },
  { value: 'intensity-100', words: 'How strong it is, along a line' },
  { value: 'words', words: 'Words to tick that apply' },
]

export const questionEnds = usualEnds
export const mostWords = questionLimits.words.most

/** How long a cup takes with liking and so many further questions, in words. */
export function sayCupTime(further: number): string {
  const { seconds, isLong } = secondsPerCup(1 + further)
  const long = ' That is more than two minutes a cup: tasters tire, and the last cups suffer. Ask fewer.'
  return `About ${seconds} seconds a cup.${isLong ? long : ''}`
}

/** One question of a plan, as whoever opens the panel reads it. */
export function sayQuestion(question: Question): string {
  const name = question.name.toLowerCase()
  switch (question.kind) {
    case 'liking-9':
      return `how the ${name} is liked`
    case 'just-right-5': {
      const [, low = '', , high = ''] = justRightSteps(question)
      return `${name} (${low}, just right, ${high})`
    }
    case 'intensity-100': {
      const [none, most] = intensityEnds(question)
      return `${name}, along a line from “${none}” to “${most}”`
    }
    case 'words':
      return `${name}: which of ${question.words.join(', ')}`
  }
}
