import { readObject, type QuestionColumns } from '../question'
import type { FoundInSetPlan, SetKindRoom } from './set-kind'

/** Two cups, which one? */
export interface ChoiceDesign {
  readonly kind: 'choice'
  /** “no preference” may be said */
  readonly none: boolean
  /** the share of those who prefer one of the two that the plan is to find, in percent, above one half */
  readonly share: number
}

export const choiceLimits = {
  /** below, it takes more tasters than a café has; above, eight or so tell it */
  share: { least: 55, most: 95 },
  /** what a new plan starts from: 65 to 35, about ninety tasters */
  usualShare: 65,
} as const

/** What is asked of a set of two. */
const choiceQuestion = 'Which of the two is preferred'

/**
 * “Two cups, which one?”: one set of both cups at each seat, one answer about it.
 *
 *     answer: the position of the preferred serving, or none where “no preference” was planned
 *
 * Source   ISO 5495: paired comparison, both orders equally often; “no preference” as our own rule a plan may offer
 * Checked  test/unit/panel/kinds/choice.test.ts
 */
export const choice: SetKindRoom<ChoiceDesign> = {
  asks: 'choose',

  problems: ({ cups, aspects, cupsPerTaster }, { share }) => {
    const found: FoundInSetPlan[] = []
    const own = cups.filter(({ isDuplicate }) => !isDuplicate).map(({ trialId }) => trialId)
    if (own.length < 2) found.push({ field: 'cups', problem: 'too-few-cups' })
    else if (own.length > 2) found.push({ field: 'cups', problem: 'two-cups-only' })
    else if (new Set(own).size < own.length) found.push({ field: 'cups', problem: 'same-trial-twice' })
    if (own.length < cups.length) found.push({ field: 'duplicate', problem: 'duplicate-of-two' })
    if (aspects.length > 0) found.push({ field: 'aspects', problem: 'only-its-own-question' })
    if (cupsPerTaster !== null) found.push({ field: 'cupsPerTaster', problem: 'all-cups-in-a-set' })
    if (share < choiceLimits.share.least || share > choiceLimits.share.most)
      found.push({ field: 'share', problem: 'share-out-of-range' })
    return found
  },

  question: ({ none }) => ({ name: choiceQuestion, kind: choice.asks, options: JSON.stringify({ none }) }),

  readDesign: ({ none, share }) => ({
    kind: 'choice',
    none: none === true,
    share: typeof share === 'number' ? share : choiceLimits.usualShare,
  }),

  isAnswer: (question, positions, answer) => {
    const [chosen, ...more] = answer
    if (chosen === undefined) return mayHaveNone(question)
    return more.length === 0 && positions.includes(chosen)
  },

  ask: (question) => ({ kind: 'choose', none: mayHaveNone(question) }),
}

/** Was “no preference” planned? */
export function mayHaveNone({ options }: Pick<QuestionColumns, 'options'>): boolean {
  return readObject(options)['none'] === true
}
