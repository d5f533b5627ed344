import fc from 'fast-check'
import { expect, test } from 'vitest'
import { chiSquaredUpper } from '@/lib/stats/distribution/chi-squared'
import { fLower, fQuantile, fUpper } from '@/lib/stats/distribution/f'
import { studentTwoSided } from '@/lib/stats/distribution/student'

const x = fc.double({ min: 1e-8, max: 1e4, noNaN: true })
const df = fc.double({ min: 0.4, max: 2000, noNaN: true })

test('the tails lie in [0, 1] and add to 1; turning F upside down swaps them', () => {
  fc.assert(
    fc.property(x, df, df, (x, a, b) => {
      const [low, up] = [fLower(x, a, b), fUpper(x, a, b)]
      expect(Math.min(low, up)).toBeGreaterThanOrEqual(0)
      expect(Math.abs(low + up - 1)).toBeLessThan(1e-10)
      expect(Math.abs(fLower(1 / x, b, a) - up)).toBeLessThan(1e-10)
    }),
  )
})

test('one numerator degree of freedom is the square of t', () => {
  fc.assert(
    fc.property(fc.double({ min: 0.001, max: 40, noNaN: true }), df, (t, df) => {
      expect(Math.abs(fUpper(t * t, 1, df) - studentTwoSided(t, df))).toBeLessThan(1e-11)
    }),
  )
})

test('the quantile inverts the smaller tail', () => {
  fc.assert(
    fc.property(fc.double({ min: 1e-12, max: 1 - 1e-9, noNaN: true }), df, df, (p, a, b) => {
      const q = fQuantile(p, a, b)
      fc.pre(q > 1e-290 && q < 1e290)
      const error = p < 0.5 ? fLower(q, a, b) / p - 1 : fUpper(q, a, b) / (1 - p) - 1
      expect(Math.abs(error)).toBeLessThan(1e-9)
    }),
  )
})

test('infinitely many denominator degrees of freedom are chi-squared over its own', () => {
  expect(fUpper(2.5, 4, Infinity)).toBe(chiSquaredUpper(10, 4))
  expect(fUpper(fQuantile(0.95, 4, Infinity), 4, Infinity)).toBeCloseTo(0.05, 12)
})

test('below 0 nothing lies', () => {
  expect([fLower(-1, 2, 3), fUpper(-1, 2, 3), fLower(0, 2, 3)]).toEqual([0, 1, 0])
})

test.each([
  [() => fUpper(Number.NaN, 2, 3), /got NaN/],
  [() => fUpper(1, 0, 3), /got 0/],
  [() => fUpper(1, Infinity, 3), /got Infinity/],
  [() => fLower(1, 2, -1), /got -1/],
  [() => fQuantile(-0.1, 2, 3), /got -0.1/],
])('a broken promise is refused, repeating the value (%#)', (ask, message) => {
  expect(ask).toThrow(RangeError)
  expect(ask).toThrow(message)
})
