import { expect, test } from 'vitest'
import { claimPlan } from '@/lib/stats/liking/claim-plan'
import { byMarginOf, claimOf, foundClaims, scoreStep } from '@/lib/stats/liking/claims'
import { likingReading } from '@/lib/stats/liking/liking-reading'

const rules = { level: 0.95, margin: null, marginLevel: 0.95, step: 0 }
const full = (scores: readonly (readonly (number | null)[])[]) =>
  scores.flatMap((row, taster) => row.map((score, cup) => ({ taster: `t${taster}`, cup: `c${cup}`, score })))

test('a claim is where the interval lies', () => {
  expect(claimOf([0.1, 2])).toBe('a better')
  expect(claimOf([-2, -0.1])).toBe('b better')
  expect(claimOf([0, 2])).toBe('cannot tell')
  expect(claimOf(null)).toBe('cannot tell')
})

test('by the margin the first that holds is said, in the order of the contract', () => {
  expect(byMarginOf([1.1, 2], 1)).toBe('a better by the margin')
  expect(byMarginOf([-2, -1.1], 1)).toBe('b better by the margin')
  expect(byMarginOf([-0.9, 0.9], 1)).toBe('as good')
  expect(byMarginOf([-0.9, 1.5], 1)).toBe('a not worse')
  expect(byMarginOf([-1.5, 0.9], 1)).toBe('b not worse')
  expect(byMarginOf([-1.5, 1.5], 1)).toBe('cannot tell')
  expect(byMarginOf([1, 2], 1)).toBe('a not worse')
})

test('nine of nine who differ by the same two points are told apart by the rounding error of the step', () => {
  const rows = full([1, 2, 3, 4, 5, 6, 7, 3, 4].map((own) => [own, own + 2]))
  const plan = claimPlan(['c0', 'c1'], {})
  const [told] = foundClaims(likingReading(rows, {}), plan, { ...rules, step: 1 })
  // 1/√(6 · 9) = 0.136083, t(0.975, 8) = 2.306004 (printed tables): −2 ± 0.313808
  expect(told).toMatchObject({ claim: 'b better', floored: true, tasters: 9 })
  expect(told?.se).toBeCloseTo(0.13608276, 7)
  expect(told?.low).toBeCloseTo(-2.313808, 5)
  expect(told?.high).toBeCloseTo(-1.686192, 5)
  // without a step there is no error to go by
  const [untold] = foundClaims(likingReading(rows, {}), plan, rules)
  expect(untold).toMatchObject({ se: 0, low: null, high: null, claim: 'cannot tell' })
})

test('fewer than six tasters claim nothing, and the interval is still there', () => {
  const rows = full([
    [1, 5],
    [2, 7],
    [3, 7],
    [4, 9],
    [1, 6],
  ])
  const [claim] = foundClaims(likingReading(rows, {}), claimPlan(['c0', 'c1'], {}), { ...rules, margin: 1 })
  expect(claim).toMatchObject({ claim: 'too few tasters', byMargin: null })
  expect(claim?.high).toBeLessThan(0)
})

test('pairs with a cup that was never scored are left out, the others stay as wide', () => {
  const rows = full([
    [1, 5, null],
    [2, 7, null],
    [3, 7, null],
    [4, 9, null],
    [1, 6, null],
    [2, 4, null],
  ])
  const reading = likingReading(rows, {})
  const narrow = foundClaims(reading, claimPlan(['c0', 'c1'], {}), rules)
  const wide = foundClaims(reading, claimPlan(['c0', 'c1', 'c2'], {}), rules)
  expect(wide.map(({ a, b }) => `${a} ${b}`)).toEqual(['c0 c1'])
  expect(wide[0]?.low).toBeLessThan(narrow[0]?.low ?? NaN)
})

test('all scores equal: as good as the step can tell', () => {
  const rows = full(Array.from({ length: 8 }, () => [5, 5]))
  const [claim] = foundClaims(likingReading(rows, {}), claimPlan(['c0', 'c1'], {}), { ...rules, step: 1, margin: 0.5 })
  expect(claim).toMatchObject({ difference: 0, claim: 'cannot tell', byMargin: 'as good' })
})

test('whole numbers have a step of one, anything else an unknown one', () => {
  expect(scoreStep([1, null, 9])).toBe(1)
  expect(scoreStep([1, 2.5])).toBe(0)
})
