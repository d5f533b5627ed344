import fc from 'fast-check'
import { expect, test } from 'vitest'
import { criticalNumber, similarityNumber } from '@/lib/stats/difference/critical-number'
import { binomialLower, binomialUpper } from '@/lib/stats/distribution/binomial'

test('the number found is significant and its neighbour is not', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 500 }),
      fc.double({ min: 0.05, max: 0.95, noNaN: true }),
      fc.double({ min: 0.001, max: 0.4, noNaN: true }),
      (n, share, alpha) => {
        const high = criticalNumber(n, share, alpha)
        if (high === null) expect(binomialUpper(n - 1, n, share)).toBeGreaterThan(alpha)
        else {
          expect(binomialUpper(high - 1, n, share)).toBeLessThanOrEqual(alpha * 1.000001)
          expect(binomialUpper(high - 2, n, share)).toBeGreaterThan(alpha)
        }
        const low = similarityNumber(n, share, alpha)
        if (low === null) expect(binomialLower(0, n, share)).toBeGreaterThan(alpha)
        else {
          expect(binomialLower(low, n, share)).toBeLessThanOrEqual(alpha * 1.000001)
          expect(binomialLower(low + 1, n, share)).toBeGreaterThan(alpha)
        }
      },
    ),
  )
})

test.each([
  [() => criticalNumber(0, 0.5, 0.05), /got 0/],
  [() => criticalNumber(10, 1, 0.05), /got 1/],
  [() => similarityNumber(10, 0.5, 0), /got 0/],
])('a broken promise is refused, repeating the value (%#)', (ask, message) => {
  expect(ask).toThrow(message)
})
