import { expect, test } from 'vitest'
import { againstMargin } from '@/lib/stats/liking/equivalence'

const judged = { basis: 'paired', difference: 0.16466667, se: 0.13575127, df: 14, p: null } as const

test('equivalence is both one-sided tests, and its interval lies within the margin when it holds', () => {
  // clinic data of the R package equivalence, recorded in statsmodels' tests: var1, p 0.0031669; six digits
  const pair = againstMargin('a', 'b', judged, 0.6, 0.95)
  expect(Math.abs((pair.pEquivalent ?? 1) - 0.003166881)).toBeLessThan(1e-6)
  expect(pair.equivalent).toBe(true)
  expect(pair.interval?.[1]).toBeLessThan(0.6)
  expect(pair.aNotWorse.holds && pair.bNotWorse.holds).toBe(true)
  expect(pair.aBetterByMargin.holds).toBe(false)
})

test('turning the pair round turns the answers round', () => {
  const plain = againstMargin('a', 'b', judged, 0.3, 0.95)
  const turned = againstMargin('b', 'a', { ...judged, difference: -judged.difference }, 0.3, 0.95)
  expect(turned.aNotWorse.p).toBeCloseTo(plain.bNotWorse.p ?? NaN, 12)
  expect(turned.bBetterByMargin.p).toBeCloseTo(plain.aBetterByMargin.p ?? NaN, 12)
})

test('without a standard error nothing holds; a margin of zero is refused', () => {
  expect(againstMargin('a', 'b', { ...judged, se: null }, 1, 0.95)).toMatchObject({
    pEquivalent: null,
    equivalent: false,
  })
  expect(() => againstMargin('a', 'b', judged, 0, 0.95)).toThrow(/got 0/)
})
