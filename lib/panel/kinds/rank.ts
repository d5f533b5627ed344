import type { FoundInSetPlan, SetKindRoom } from './set-kind'

/** Three to six cups: in which order? */
export interface RankDesign {
  readonly kind: 'rank'
  /** of those who compare the best cup with any one other, the share that put it above, in percent: what the plan is to find */
  readonly share: number
}

export const rankLimits = {
  /** of two, one is chosen; of more than six nobody knows the first by the time of the last */
  cups: { least: 3, most: 6 },
  /** below, it takes more tasters than a café has; above, some ten tell it */
  share: { least: 55, most: 95 },
  /** what a new plan starts from: three of four put the best above any other */
  usualShare: 75,
} as const

/** What is asked of a set of cups. */
const rankQuestion = 'Order of liking'

/**
 * “Three to six cups, in which order?”: one set of all cups at each seat, one answer about it. Two cups never share a place: the
 * first test counts every order of different places, and a taster who cannot tell two apart puts them as a coin would.
 *
 *     answer: the positions of all servings of the set, the one liked best first
 *
 * Source   ISO 8587: ranking, every assessor the same cups in balanced orders; three to six is common practice, no source
 * Checked  test/unit/panel/kinds/rank.test.ts
 */
export const rank: SetKindRoom<RankDesign> = {
  asks: 'rank',

  problems: ({ cups, aspects, cupsPerTaster }, { share }) => {
    const found: FoundInSetPlan[] = []
    const own = cups.filter(({ isDuplicate }) => !isDuplicate).map(({ trialId }) => trialId)
    if (own.length < rankLimits.cups.least || own.length > rankLimits.cups.most)
      found.push({ field: 'cups', problem: 'cups-for-an-order' })
    else if (new Set(own).size < own.length) found.push({ field: 'cups', problem: 'same-trial-twice' })
    if (own.length < cups.length) found.push({ field: 'duplicate', problem: 'duplicate-in-an-order' })
    if (aspects.length > 0) found.push({ field: 'aspects', problem: 'only-its-own-question' })
    if (cupsPerTaster !== null) found.push({ field: 'cupsPerTaster', problem: 'all-cups-in-a-set' })
    if (share < rankLimits.share.least || share > rankLimits.share.most)
      found.push({ field: 'above', problem: 'share-out-of-range' })
    return found
  },

  question: () => ({ name: rankQuestion, kind: rank.asks, options: null }),

  readDesign: ({ share }) => ({ kind: 'rank', share: typeof share === 'number' ? share : rankLimits.usualShare }),

  isAnswer: (_, positions, answer) =>
    answer.length === positions.length && positions.every((position) => answer.includes(position)),

  ask: () => ({ kind: 'rank' }),
}

/** An answer about cups in order, as it is of one of them. */
export function sayRank(position: number, order: readonly number[]): string {
  return `place ${order.indexOf(position) + 1} of ${order.length}`
}
