import fc from 'fast-check'
import { expect, test } from 'vitest'
import { betaLower, betaQuantile, betaUpper, logBeta } from '@/lib/stats/distribution/beta'

const shape = fc.double({ min: 0.05, max: 3000, noNaN: true })
const share = fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true })

test('the tails lie in [0, 1], add to 1 and mirror when the shapes change places', () => {
  fc.assert(
    fc.property(share, shape, shape, (x, a, b) => {
      const [low, up] = [betaLower(x, a, b), betaUpper(x, a, b)]
      expect(Math.min(low, up)).toBeGreaterThanOrEqual(0)
      expect(Math.abs(low + up - 1)).toBeLessThan(1e-10)
      expect(Math.abs(betaUpper(1 - x, b, a) - low)).toBeLessThan(1e-10)
    }),
  )
})

test('the quantile inverts the lower tail, also where it is 1e-50', () => {
  for (const [a, b] of [
    [0.5, 3],
    [2, 2],
    [40, 900],
  ] as const) {
    for (const p of [1e-50, 1e-20, 1e-6, 0.2, 0.9]) {
      expect(Math.abs(betaLower(betaQuantile(p, a, b), a, b) / p - 1)).toBeLessThan(1e-10)
    }
  }
})

test('the beta function of whole numbers has a closed form', () => {
  expect(logBeta(3, 4)).toBeCloseTo(Math.log(1 / 60), 13)
  expect(logBeta(1, 1000)).toBeCloseTo(-Math.log(1000), 12)
  expect(logBeta(1000, 1)).toBe(logBeta(1, 1000))
})

test.each([
  [() => betaLower(1.2, 1, 1), /got 1.2/],
  [() => betaUpper(0.5, 0, 1), /got 0/],
  [() => betaQuantile(Number.NaN, 1, 1), /got NaN/],
  [() => logBeta(1, Infinity), /got Infinity/],
])('a broken promise is refused, repeating the value (%#)', (ask, message) => {
  expect(ask).toThrow(message)
})
