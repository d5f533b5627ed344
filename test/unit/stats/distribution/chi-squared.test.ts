import fc from 'fast-check'
import { expect, test } from 'vitest'
import { chiSquaredLower, chiSquaredQuantile, chiSquaredUpper } from '@/lib/stats/distribution/chi-squared'

const df = fc.double({ min: 0.3, max: 3e4, noNaN: true })

test('the tails lie in [0, 1], add to 1, and the lower one grows', () => {
  fc.assert(
    fc.property(fc.double({ min: 1e-6, max: 4, noNaN: true }), df, (ratio, df) => {
      const x = ratio * df
      const [low, up] = [chiSquaredLower(x, df), chiSquaredUpper(x, df)]
      expect(Math.min(low, up)).toBeGreaterThanOrEqual(0)
      expect(Math.abs(low + up - 1)).toBeLessThan(1e-12)
      expect(chiSquaredLower(x * 1.01, df)).toBeGreaterThanOrEqual(low - 1e-15)
    }),
  )
})

test('two degrees of freedom are exponential', () => {
  for (const x of [1e-9, 0.3, 4, 200])
    expect(Math.abs(chiSquaredUpper(x, 2) / Math.exp(-x / 2) - 1)).toBeLessThan(1e-13)
})

test('the quantile inverts the smaller tail', () => {
  fc.assert(
    fc.property(fc.double({ min: 1e-40, max: 1 - 1e-12, noNaN: true }), df, (p, df) => {
      const q = chiSquaredQuantile(p, df)
      fc.pre(q > 1e-290)
      const error = p < 0.5 ? chiSquaredLower(q, df) / p - 1 : chiSquaredUpper(q, df) / (1 - p) - 1
      expect(Math.abs(error)).toBeLessThan(1e-9)
    }),
  )
})

test.each([
  [() => chiSquaredLower(Number.NaN, 3), /got NaN/],
  [() => chiSquaredUpper(1, 0), /got 0/],
  [() => chiSquaredQuantile(2, 3), /got 2/],
])('a broken promise is refused, repeating the value (%#)', (ask, message) => {
  expect(ask).toThrow(message)
})
