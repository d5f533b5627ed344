import { describe, expect, test } from 'vitest'
import { checkPlan, type Plan } from '@/lib/panel/plan'
import { rank, rankLimits, sayRank } from '@/lib/panel/kinds/rank'
import { likingQuestion } from '@/lib/panel/question'

const cup = (trialId: string, isDuplicate = false) => ({ trialId, isHouse: false, isDuplicate })
const cups = (ids: string) => ids.split('').map((id) => cup(id))

const problemsOf = (more: Partial<Plan>, share = 75) => {
  const plan: Plan = {
    cups: cups('abc'),
    aspects: [],
    seatCount: 24,
    cupsPerTaster: null,
    aim: 'best',
    primaryKind: 'all-pairs',
    pair: [null, null],
    smallestDifference: 0,
    notWorseMargin: null,
    seenThrough: null,
    nothingSeen: true,
    asks: { kind: 'rank', share },
    ...more,
  }
  return checkPlan(plan).map(({ field, problem }) => `${field}: ${problem}`)
}

describe('the plan', () => {
  test('three to six different cups are one', () => {
    for (const ids of ['abc', 'abcd', 'abcde', 'abcdef']) expect(problemsOf({ cups: cups(ids) })).toEqual([])
  })
  test('two are chosen between, seven are too many, and no trial stands twice', () => {
    for (const ids of ['ab', 'abcdefg']) expect(problemsOf({ cups: cups(ids) })).toEqual(['cups: cups-for-an-order'])
    expect(problemsOf({ cups: cups('aba') })).toEqual(['cups: same-trial-twice'])
    expect(problemsOf({ cups: [...cups('abc'), cup('a', true)] })).toEqual(['duplicate: duplicate-in-an-order'])
  })
  test('nothing else is asked, and everybody gets all', () => {
    expect(problemsOf({ aspects: [likingQuestion('Sweetness')] })).toEqual(['aspects: only-its-own-question'])
    expect(problemsOf({ cupsPerTaster: 2 })).toEqual(['cupsPerTaster: all-cups-in-a-set'])
  })
  test('the share lies between what no café finds and what nobody needs a panel for', () => {
    expect(problemsOf({}, rankLimits.share.least - 1)).toEqual(['above: share-out-of-range'])
    expect(problemsOf({}, rankLimits.share.most + 1)).toEqual(['above: share-out-of-range'])
  })
})

describe('the answer', () => {
  const asked = rank.question({ kind: 'rank', share: 75 })
  test('is every place of the set once, in any order', () => {
    expect(rank.isAnswer(asked, [1, 2, 3], [2, 3, 1])).toBe(true)
    for (const wrong of [[], [1], [1, 2], [1, 2, 2], [1, 2, 3, 1], [1, 2, 4], [1, 1, 2, 3]])
      expect(rank.isAnswer(asked, [1, 2, 3], wrong), wrong.join()).toBe(false)
  })
  test('of one cup it is its place', () => {
    expect(sayRank(3, [2, 3, 1])).toBe('place 2 of 3')
    expect(rank.ask(asked)).toEqual({ kind: 'rank' })
  })
})

test('a design reads back what was kept, and a new plan’s where nothing readable was', () => {
  expect(rank.readDesign({ share: 70 })).toEqual({ kind: 'rank', share: 70 })
  expect(rank.readDesign({ share: 'much' })).toEqual({ kind: 'rank', share: 75 })
})
