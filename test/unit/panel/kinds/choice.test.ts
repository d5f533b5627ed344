import { describe, expect, test } from 'vitest'
import { checkPlan, type Plan } from '@/lib/panel/plan'
import { choice, choiceLimits, mayHaveNone } from '@/lib/panel/kinds/choice'
import { likingQuestion } from '@/lib/panel/question'

const cup = (trialId: string, isDuplicate = false) => ({ trialId, isHouse: false, isDuplicate })

const problemsOf = (more: Partial<Plan>, share = 65) => {
  const plan: Plan = {
    cups: [cup('a'), cup('b')],
    aspects: [],
    seatCount: 24,
    cupsPerTaster: null,
    aim: 'better',
    primaryKind: 'one-pair',
    pair: ['a', 'b'],
    smallestDifference: 0,
    notWorseMargin: null,
    seenThrough: null,
    nothingSeen: true,
    asks: { kind: 'choice', none: false, share },
    ...more,
  }
  return checkPlan(plan).map(({ field, problem }) => `${field}: ${problem}`)
}

describe('the plan', () => {
  test('two different cups are one', () => expect(problemsOf({})).toEqual([]))
  test('one cup is no choice, three are another kind', () => {
    expect(problemsOf({ cups: [cup('a')] })).toEqual(['cups: too-few-cups'])
    expect(problemsOf({ cups: ['a', 'b', 'c'].map((id) => cup(id)) })).toEqual(['cups: two-cups-only'])
    expect(problemsOf({ cups: [cup('a'), cup('a')] })).toEqual(['cups: same-trial-twice'])
  })
  test('nothing is served twice, nothing else is asked, nobody gets one of the two', () => {
    expect(problemsOf({ cups: [cup('a'), cup('b'), cup('a', true)] })).toEqual(['duplicate: duplicate-of-two'])
    expect(problemsOf({ aspects: [likingQuestion('Sweetness')] })).toEqual(['aspects: only-its-own-question'])
    expect(problemsOf({ cupsPerTaster: 2 })).toEqual(['cupsPerTaster: all-cups-in-a-set'])
  })
  test('one half is no preference, and nobody finds that all agree', () => {
    expect(problemsOf({}, choiceLimits.share.least - 1)).toEqual(['share: share-out-of-range'])
    expect(problemsOf({}, choiceLimits.share.most + 1)).toEqual(['share: share-out-of-range'])
  })
})

describe('the answer', () => {
  const asked = (none: boolean) => choice.question({ kind: 'choice', none, share: 65 })
  test('is one of the two places', () => {
    expect(choice.isAnswer(asked(false), [1, 2], [2])).toBe(true)
    expect(choice.isAnswer(asked(false), [1, 2], [3])).toBe(false)
    expect(choice.isAnswer(asked(true), [1, 2], [1, 2])).toBe(false)
  })
  test('is none only where that was planned', () => {
    expect(choice.isAnswer(asked(true), [1, 2], [])).toBe(true)
    expect(choice.isAnswer(asked(false), [1, 2], [])).toBe(false)
    expect(choice.ask(asked(true))).toEqual({ kind: 'choose', none: true })
    expect(mayHaveNone({ options: null })).toBe(false)
  })
})

test('a design reads back what was kept, and a new plan’s where nothing readable was', () => {
  expect(choice.readDesign({ none: true, share: 70 })).toEqual({ kind: 'choice', none: true, share: 70 })
  expect(choice.readDesign({ share: 'much' })).toEqual({ kind: 'choice', none: false, share: 65 })
})
