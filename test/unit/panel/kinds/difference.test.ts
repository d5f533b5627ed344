import { describe, expect, test } from 'vitest'
import { difference, proposedProtocol, type DifferenceDesign } from '@/lib/panel/kinds/difference'
import { checkOpening, checkPlan, type Plan } from '@/lib/panel/plan'
import { likingQuestion } from '@/lib/panel/question'
import type { Protocol } from '@/lib/panel/kinds/difference-sets'

const plain = { aim: 'differ', protocol: 'triangle', property: null, each: 1, share: 30, mask: null } as const
const design = (more: Partial<DifferenceDesign> = {}): DifferenceDesign => ({ kind: 'difference', ...plain, ...more })

const cup = (trialId: string, isDuplicate = false) => ({ trialId, isHouse: false, isDuplicate })
const plan = (asks: Partial<DifferenceDesign>, more: Partial<Plan> = {}): Plan => ({
  ...{ cups: [cup('a'), cup('b')], aspects: [], seatCount: 24, cupsPerTaster: null, aim: 'better' },
  ...{ primaryKind: 'one-pair', pair: ['a', 'b'], smallestDifference: 0, notWorseMargin: null },
  ...{ seenThrough: null, nothingSeen: true, asks: design(asks) },
  ...more,
})
const problemsOf = (asks: Partial<DifferenceDesign>, more: Partial<Plan> = {}) =>
  checkPlan(plan(asks, more)).map(({ field, problem }) => `${field}: ${problem}`)

describe('the plan', () => {
  test('two different cups are one', () => expect(problemsOf({})).toEqual([]))
  test('one cup, three cups, a cup twice, and further questions are not', () => {
    expect(problemsOf({}, { cups: [cup('a')] })).toEqual(['cups: too-few-cups'])
    expect(problemsOf({}, { cups: ['a', 'b', 'c'].map((id) => cup(id)) })).toEqual(['cups: two-cups-only'])
    expect(problemsOf({}, { cups: [cup('a'), cup('a')] })).toEqual(['cups: same-trial-twice'])
    expect(problemsOf({}, { cups: [cup('a'), cup('b'), cup('a', true)] })).toEqual(['duplicate: duplicate-of-two'])
    expect(problemsOf({}, { aspects: [likingQuestion('Sweetness')] })).toEqual(['aspects: only-its-own-question'])
    expect(problemsOf({}, { cupsPerTaster: 2 })).toEqual(['cupsPerTaster: all-cups-in-a-set'])
  })
  test('what can be seen is not tasted, unless it is hidden', () => {
    const seen = { seenThrough: 'milk colour', nothingSeen: false }
    expect(problemsOf({}, seen)).toEqual(['odd.mask: seen-and-not-masked'])
    expect(problemsOf({ mask: 'black cups with lids' }, seen)).toEqual([])
  })
  test('somebody has to look before it opens', () => {
    expect(checkOpening(plan({}, { nothingSeen: false })).map(({ problem }) => problem)).toEqual(['seen-not-said'])
  })
  test('a forced choice names a property, the others none', () => {
    expect(problemsOf({ protocol: 'two-afc' })).toEqual(['odd.property: property-not-said'])
    expect(problemsOf({ protocol: 'two-afc', property: 'sweeter' })).toEqual([])
    expect(problemsOf({ property: 'sweeter' })).toEqual(['odd.property: property-for-nothing'])
  })
  test('one to three answers, at most nine cups, and to show that few can tell one each', () => {
    expect(problemsOf({ each: 3 })).toEqual([])
    expect(problemsOf({ each: 4 })).toEqual(['odd.each: answers-out-of-range'])
    expect(problemsOf({ protocol: 'tetrad', each: 3 })).toEqual(['odd.each: too-many-pourings'])
    expect(problemsOf({ aim: 'alike', each: 2 })).toEqual(['odd.each: one-answer-each'])
    // of 24 tasters of three cups, half of whom find the other sweeter, 4 are right on average: no sign that few can tell
    const sweeter = { protocol: 'three-afc', property: 'sweeter' } as const
    expect(problemsOf({ aim: 'alike', ...sweeter })).toEqual(['odd.asks: property-looks-one-way'])
    expect(problemsOf({ each: 2, ...sweeter })).toEqual(['odd.each: one-answer-of-a-property'])
    expect(problemsOf({ share: 4 })).toEqual(['odd.share: telling-out-of-range'])
  })
  test('the method proposed suits aim and property', () => {
    expect(proposedProtocol(false)).toBe('triangle')
    expect(proposedProtocol(true)).toBe('two-afc')
  })
})

describe('the answer', () => {
  const may = (protocol: Protocol, positions: readonly number[], answer: readonly number[]) =>
    difference.isAnswer(difference.question(design({ protocol })), positions, answer)
  test.each(['triangle', 'two-afc', 'three-afc'] as const)('of %s is one place of the set', (protocol) => {
    expect(may(protocol, [4, 5, 6], [5])).toBe(true)
    for (const none of [[], [3], [4, 5]]) expect(may(protocol, [4, 5, 6], none)).toBe(false)
  })
  test('of a duo-trio is never the reference', () => {
    expect(may('duo-trio', [4, 5, 6], [6])).toBe(true)
    expect(may('duo-trio', [4, 5, 6], [4])).toBe(false)
  })
  test('of a tetrad is a pair, the lower first', () => {
    expect(may('tetrad', [1, 2, 3, 4], [2, 4])).toBe(true)
    for (const none of [[4, 2], [2, 2], [2], [2, 5], [1, 2, 3]]) expect(may('tetrad', [1, 2, 3, 4], none)).toBe(false)
  })
})

test('a phone is told the method and the word, and nothing of aim, bound or cups', () => {
  const asked = difference.question(design({ protocol: 'two-afc', property: 'sweeter', aim: 'alike', share: 20 }))
  expect(asked).toEqual({
    name: 'Which one is sweeter',
    kind: 'odd',
    options: '{"protocol":"two-afc","property":"sweeter"}',
  })
  expect(difference.ask(asked)).toEqual({ kind: 'odd', protocol: 'two-afc', property: 'sweeter' })
})

test('a design reads back what was kept, and a new plan’s where nothing readable was', () => {
  const { kind: _, ...kept } = design({ aim: 'alike', protocol: 'tetrad', each: 2, mask: 'lids' })
  expect(difference.readDesign(kept)).toEqual({ kind: 'difference', ...kept })
  expect(difference.readDesign({ protocol: 'stars', share: 'much' })).toEqual(design())
})

test('a tray counts every pouring, and how often one cup stands on it', () => {
  const pourings = (protocol: Protocol, each: number) => difference.trays?.pourings(design({ protocol, each }))
  expect(pourings('triangle', 1)).toEqual({ total: 3, most: 1.5, mostAtSeat: 2 })
  expect(pourings('duo-trio', 2)).toEqual({ total: 6, most: 3, mostAtSeat: 4 })
  expect(pourings('two-afc', 3)).toEqual({ total: 6, most: 3, mostAtSeat: 3 })
  expect(pourings('three-afc', 1)).toEqual({ total: 3, most: 2, mostAtSeat: 2 })
  expect(pourings('tetrad', 2)).toEqual({ total: 8, most: 4, mostAtSeat: 4 })
})

test('of three alternatives the cup with more of it stands once on every tray, whatever its number', () => {
  const three = design({ protocol: 'three-afc', property: 'sweeter' })
  for (const first of [1, 2]) {
    const trays = difference.trays?.deal(three, [], 12, { seed: 5, first }) ?? []
    expect(trays).toHaveLength(12)
    for (const tray of trays) expect(tray.filter((one) => one === first)).toHaveLength(1)
    const more = difference.trays?.deal(three, trays, 3, { seed: 5, first }) ?? []
    for (const tray of more) expect(tray.filter((one) => one === first)).toHaveLength(1)
  }
})
