import { expect, test } from 'vitest'
import { rehearse, type RehearsedPlan } from '@/lib/stats/plan/rehearse'

const plan: RehearsedPlan = { cups: 3, tasters: 12, sd: 1.2, difference: 1, plan: 'all', level: 0.95, seed: 1 }

test('the same seed gives the same answer', () => {
  const one = rehearse(plan, 60)
  expect(rehearse(plan, 60)).toEqual(one)
  expect(rehearse({ ...plan, seed: 2 }, 60)).not.toEqual(one)
})

test.each([
  plan,
  { ...plan, plan: 'against' as const, margin: 0.5, marginLevel: 0.9 },
  { ...plan, absent: 0.3, divide: 2 },
  { ...plan, tasters: 5 },
  {
    ...plan,
    cups: 4,
    trays: Array.from({ length: 12 }, (_, at) => [1, 2, 3, 4].filter((cup) => cup !== (at % 4) + 1)),
  },
])('what may be said of cups 1 and 2 is said of every panel (%#)', (one) => {
  const { found, cannotTell, wrong, tooFew, namedBest, aboveAll, beaten, asGood, coverage } = rehearse(one, 40)
  expect(found + cannotTell + wrong + tooFew).toBeCloseTo(1, 12)
  expect(namedBest === null).toBe(one.plan !== 'all')
  expect(aboveAll === null).toBe(one.plan !== 'all')
  // who is above every other is beaten by none, and told from the second
  expect(aboveAll ?? 0).toBeLessThanOrEqual(Math.min(found, namedBest ?? 1))
  expect((aboveAll ?? 0) + beaten).toBeLessThanOrEqual(1)
  expect(beaten).toBeGreaterThanOrEqual(wrong)
  expect(asGood === null).toBe(one.margin === undefined)
  expect(coverage).toBeGreaterThan(0.7)
})

test('five tasters are too few in every panel, and nothing false is claimed there', () => {
  expect(rehearse({ ...plan, tasters: 5 }, 30)).toMatchObject({ tooFew: 1, found: 0, anyFalse: 0, namedBest: 0 })
})

test('the shortcut for panels without a gap says in every panel what the model says', () => {
  // a chance too small ever to come true sends the same scores through the model
  const question = { ...plan, tasters: 9, margin: 0.5, marginLevel: 0.9 }
  for (const kind of ['all', 'against', 'pair'] as const) {
    const short = rehearse({ ...question, plan: kind }, 40)
    expect(rehearse({ ...question, plan: kind, absent: Number.MIN_VALUE }, 40)).toEqual(short)
    expect(short.cannotTell).toBeLessThan(1)
  }
})

test.each<[string, Partial<RehearsedPlan>]>([
  ['one cup', { cups: 1 }],
  ['no taster', { tasters: 0 }],
  ['no spread', { sd: 0 }],
  ['a level of 1', { level: 1 }],
  ['a margin of 0', { margin: 0 }],
  ['everything missing', { absent: 1 }],
  ['a tray for one taster of twelve', { trays: [[1, 2, 3]] }],
])('%s cannot be rehearsed', (_, wrong) => {
  expect(() => rehearse({ ...plan, ...wrong }, 10)).toThrow(RangeError)
})
