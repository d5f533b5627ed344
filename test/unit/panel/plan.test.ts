import { describe, expect, test } from 'vitest'
import { checkPlan, findStage, isUnblinded, mlToPour, sparePortions, type Plan } from '@/lib/panel/plan'

const cup = (trialId: string, more: { isHouse?: boolean; isDuplicate?: boolean } = {}) =>
  Object.freeze({ trialId, isHouse: false, isDuplicate: false, ...more })

const plan = (more: Partial<Plan> = {}): Plan =>
  Object.freeze({
    cups: [cup('house', { isHouse: true }), cup('sweeter')],
    aspects: [],
    seatCount: 24,
    primaryKind: 'all-pairs',
    pair: [null, null] as const,
    smallestDifference: 10,
    notWorseMargin: null,
    ...more,
  })

const problemsOf = (more: Partial<Plan>) => checkPlan(plan(more)).map(({ field, problem }) => `${field}: ${problem}`)

test('two different cups and a comparison are a plan', () => {
  expect(checkPlan(plan())).toEqual([])
})

describe('cups', () => {
  test('one cup has nothing to be compared with', () => {
    expect(problemsOf({ cups: [cup('a')] })).toEqual(['cups: too-few-cups'])
  })
  test('no cup at all is refused too', () => {
    expect(problemsOf({ cups: [] })).toEqual(['cups: too-few-cups'])
  })
  test('seven cups tire the palate', () => {
    expect(problemsOf({ cups: ['a', 'b', 'c', 'd', 'e', 'f', 'g'].map((id) => cup(id)) })).toEqual([
      'cups: too-many-cups',
    ])
  })
  test('the same trial twice is a slip', () => {
    expect(problemsOf({ cups: [cup('a'), cup('b'), cup('a')] })).toEqual(['cups: same-trial-twice'])
  })
  test('the same trial twice on purpose is a hidden duplicate', () => {
    expect(problemsOf({ cups: [cup('a'), cup('b'), cup('c'), cup('a', { isDuplicate: true })] })).toEqual([])
  })
  test('a hidden duplicate repeats a cup that is there', () => {
    expect(problemsOf({ cups: [cup('a'), cup('b'), cup('d'), cup('c', { isDuplicate: true })] })).toEqual([
      'duplicate: duplicate-of-nothing',
    ])
  })
  test('one hidden duplicate is enough', () => {
    const twice = [cup('a', { isDuplicate: true }), cup('b', { isDuplicate: true })]
    expect(problemsOf({ cups: [cup('a'), cup('b'), cup('c'), ...twice] })).toEqual(['duplicate: two-duplicates'])
  })
  test('with two trials a hidden duplicate would confound place and cup', () => {
    expect(problemsOf({ cups: [cup('a'), cup('b'), cup('a', { isDuplicate: true })] })).toEqual([
      'duplicate: duplicate-of-two',
    ])
  })
  test('one trial and its duplicate alone compare nothing', () => {
    expect(problemsOf({ cups: [cup('a'), cup('a', { isDuplicate: true })] })).toEqual(['cups: nothing-to-compare'])
  })
})

describe('the primary comparison', () => {
  test('against the house recipe needs the house recipe among the cups', () => {
    expect(problemsOf({ primaryKind: 'against-house' })).toEqual([])
    expect(problemsOf({ primaryKind: 'against-house', cups: [cup('a'), cup('b')] })).toEqual([
      'primaryKind: no-house-cup',
    ])
  })
  test.each([
    [['house', null], 'pairB: pair-incomplete'],
    [[null, 'house'], 'pairA: pair-incomplete'],
    [['house', 'house'], 'pairB: pair-of-one'],
    [['house', 'elsewhere'], 'pairB: pair-not-served'],
    [['elsewhere', 'house'], 'pairA: pair-not-served'],
  ] as const)('one pair must be two cups of this panel: %j', (pair, problem) => {
    expect(problemsOf({ primaryKind: 'one-pair', pair })).toEqual([problem])
  })
  test('a whole pair is fine', () => {
    expect(problemsOf({ primaryKind: 'one-pair', pair: ['house', 'sweeter'] })).toEqual([])
  })
})

test('an aspect is asked once, whatever its capitals', () => {
  expect(problemsOf({ aspects: ['Sweetness', 'sweetness '] })).toEqual(['aspects: same-aspect-twice'])
  expect(problemsOf({ aspects: ['overall LIKING'] })).toEqual(['aspects: same-aspect-twice'])
})

test('a margin as long as the scale refuses nothing, and is refused', () => {
  expect(problemsOf({ notWorseMargin: 80 })).toEqual(['notWorseMargin: margin-too-wide'])
  expect(problemsOf({ notWorseMargin: 5 })).toEqual([])
})

// Worked by hand from V = tasters · ml · (1 + overage), common practice, no source: 24 · 40 · 1.15 = 1104.
test('what to pour is what is drunk and 15 % more', () => {
  expect(mlToPour(24, 40)).toBe(1104)
  expect(mlToPour(1, 1)).toBe(2)
})

test('one spare portion for every ten seats begun', () => {
  expect([1, 10, 11, 24].map(sparePortions)).toEqual([1, 1, 2, 3])
})

test('nobody sees which cup is which before closing', () => {
  expect((['draft', 'open', 'closed', 'decided'] as const).map(isUnblinded)).toEqual([false, false, true, true])
})

test('a stage the house does not know is no stage', () => {
  expect(findStage('open')).toBe('open')
  expect(findStage('ajar')).toBeNull()
})
