import { describe, expect, test } from 'vitest'
import { likingQuestion } from '@/lib/panel/question'
import { checkOpening, checkPlan, findAim, findStage, isUnblinded, stages, type Plan } from '@/lib/panel/plan'

const cup = (trialId: string, more: { isHouse?: boolean; isDuplicate?: boolean } = {}) =>
  Object.freeze({ trialId, isHouse: false, isDuplicate: false, ...more })

const plan = (more: Partial<Plan> = {}): Plan =>
  Object.freeze({
    cups: [cup('house', { isHouse: true }), cup('sweeter')],
    aspects: [],
    seatCount: 24,
    cupsPerTaster: null,
    aim: 'best',
    primaryKind: 'all-pairs',
    pair: [null, null] as const,
    smallestDifference: 10,
    notWorseMargin: null,
    seenThrough: null,
    nothingSeen: false,
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
  test('seven cups tire the palate, so each taster gets some of them', () => {
    const cups = ['a', 'b', 'c', 'd', 'e', 'f', 'g'].map((id) => cup(id))
    expect(problemsOf({ cups })).toEqual(['cupsPerTaster: too-many-for-one'])
    expect(problemsOf({ cups, cupsPerTaster: 7 })).toEqual(['cupsPerTaster: too-many-for-one'])
    expect(problemsOf({ cups, cupsPerTaster: 4 })).toEqual([])
  })
  test('sixteen cups are more than the serving orders are proven for', () => {
    const cups = Array.from({ length: 16 }, (_, at) => cup(`t${at}`))
    expect(problemsOf({ cups, cupsPerTaster: 4 })).toEqual(['cups: too-many-cups'])
    expect(problemsOf({ cups: cups.slice(1), cupsPerTaster: 4 })).toEqual([])
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
    expect(problemsOf({ aim: 'better', primaryKind: 'against-house' })).toEqual([])
    expect(problemsOf({ aim: 'better', primaryKind: 'against-house', cups: [cup('a'), cup('b')] })).toEqual([
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
    expect(problemsOf({ aim: 'better', primaryKind: 'one-pair', pair })).toEqual([problem])
  })
  test('a whole pair is fine', () => {
    expect(problemsOf({ aim: 'better', primaryKind: 'one-pair', pair: ['house', 'sweeter'] })).toEqual([])
  })
})

test('an aspect is asked once, whatever its capitals', () => {
  expect(problemsOf({ aspects: ['Sweetness', 'sweetness '].map(likingQuestion) })).toEqual([
    'aspects: same-aspect-twice',
  ])
  expect(problemsOf({ aspects: ['overall LIKING'].map(likingQuestion) })).toEqual(['aspects: same-aspect-twice'])
})

test('a margin as long as the scale refuses nothing, and is refused', () => {
  expect(problemsOf({ notWorseMargin: 80 })).toEqual(['notWorseMargin: margin-too-wide'])
  expect(problemsOf({ notWorseMargin: 5 })).toEqual([])
})

describe('fewer cups each than the plan has', () => {
  const some = { cups: ['a', 'b', 'c', 'd', 'e', 'f'].map((id) => cup(id)), cupsPerTaster: 4 }
  test('no hidden duplicate then: only some tasters would get both pourings', () => {
    const twice = [...some.cups, cup('a', { isDuplicate: true })]
    expect(problemsOf({ ...some, cups: twice })).toEqual(['duplicate: duplicate-of-some'])
  })
  test('every cup is tasted three times at least', () => {
    // 4 seats × 4 cups = 16 tastings of 6 cups, 2.67 each; 5 × 4 = 20, 3.33 each.
    expect(problemsOf({ ...some, seatCount: 4 })).toEqual(['seatCount: too-few-seats'])
    expect(problemsOf({ ...some, seatCount: 5 })).toEqual([])
  })
  test('where everybody gets them all, few seats are nobody’s mistake', () => {
    expect(problemsOf({ ...some, cupsPerTaster: null, seatCount: 1 })).toEqual([])
    expect(problemsOf({ ...some, cupsPerTaster: 6, seatCount: 1 })).toEqual([])
  })
})

describe('the aim', () => {
  test('“better” and “as good” need something to be compared with', () => {
    expect(problemsOf({ aim: 'better' })).toEqual(['primaryKind: no-yardstick'])
    expect(problemsOf({ aim: 'as-good', notWorseMargin: 5 })).toEqual(['primaryKind: no-yardstick'])
    expect(problemsOf({ aim: 'better', primaryKind: 'against-house' })).toEqual([])
    expect(problemsOf({ aim: 'better', primaryKind: 'one-pair', pair: ['sweeter', 'house'] })).toEqual([])
  })
  test('“as good” says by how much it may be less liked', () => {
    expect(problemsOf({ aim: 'as-good', primaryKind: 'against-house' })).toEqual(['notWorseMargin: margin-missing'])
  })
  test.each([
    ['all-pairs', null, 'best'],
    ['all-pairs', 5, 'best'],
    ['against-house', null, 'better'],
    ['one-pair', null, 'better'],
    ['against-house', 5, 'as-good'],
    ['one-pair', 5, 'as-good'],
  ] as const)('of an old plan: %s with margin %s asked “%s”', (primaryKind, notWorseMargin, aim) => {
    expect(findAim(null, { primaryKind, notWorseMargin })).toBe(aim)
  })
  test('what a plan says itself stands', () => {
    expect(findAim('as-good', { primaryKind: 'all-pairs', notWorseMargin: null })).toBe('as-good')
    expect(findAim('prettiest', { primaryKind: 'all-pairs', notWorseMargin: null })).toBe('best')
  })
})

describe('what can be seen', () => {
  const opening = (more: Partial<Plan>) => checkOpening(plan(more)).map(({ problem }) => problem)
  test('a draft may leave it open, a panel may not', () => {
    expect(problemsOf({})).toEqual([])
    expect(opening({})).toEqual(['seen-not-said'])
    expect(opening({ nothingSeen: true })).toEqual([])
    expect(opening({ seenThrough: 'milk colour' })).toEqual([])
  })
  test('something and nothing cannot both be', () => {
    expect(problemsOf({ nothingSeen: true, seenThrough: 'foam' })).toEqual(['seenThrough: seen-both'])
  })
})

test('nobody sees which cup is which before closing', () => {
  expect(stages.filter(isUnblinded)).toEqual(['closed', 'decided'])
})

test('a stage the house does not know is no stage', () => {
  expect(findStage('open')).toBe('open')
  expect(findStage('ajar')).toBeNull()
})
