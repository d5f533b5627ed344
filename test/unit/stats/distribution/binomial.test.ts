import fc from 'fast-check'
import { expect, test } from 'vitest'
import { binomialLower, binomialMass, binomialQuantile, binomialUpper } from '@/lib/stats/distribution/binomial'

const trials = fc.integer({ min: 1, max: 300 })
const chance = fc.double({ min: 0.001, max: 0.999, noNaN: true })

test('the masses add to the tails and the tails to 1', () => {
  fc.assert(
    fc.property(trials, chance, (n, p) => {
      let sum = 0
      for (let k = 0; k <= n; k++) {
        sum += binomialMass(k, n, p)
        expect(Math.abs(binomialLower(k, n, p) - sum)).toBeLessThan(1e-11)
        expect(Math.abs(binomialLower(k, n, p) + binomialUpper(k, n, p) - 1)).toBeLessThan(1e-12)
      }
    }),
    { numRuns: 40 },
  )
})

test('the quantile is the smallest count that is enough', () => {
  fc.assert(
    fc.property(fc.double({ min: 0.001, max: 0.999, noNaN: true }), trials, chance, (prob, n, p) => {
      const k = binomialQuantile(prob, n, p)
      expect(binomialLower(k, n, p)).toBeGreaterThanOrEqual(prob - 1e-14)
      if (k > 0) expect(binomialLower(k - 1, n, p)).toBeLessThan(prob + 1e-14)
    }),
  )
})

test('counts outside 0 … n, and sure or impossible successes', () => {
  expect([
    binomialLower(-1, 5, 0.3),
    binomialUpper(-1, 5, 0.3),
    binomialLower(5, 5, 0.3),
    binomialUpper(5, 5, 0.3),
  ]).toEqual([0, 1, 1, 0])
  expect([binomialMass(6, 5, 0.3), binomialMass(0, 5, 0), binomialMass(5, 5, 1), binomialMass(4, 5, 1)]).toEqual([
    0, 1, 1, 0,
  ])
  expect([binomialQuantile(0, 5, 0.3), binomialQuantile(1, 5, 0.3), binomialQuantile(0.5, 5, 1)]).toEqual([0, 5, 5])
})

test('a fair coin ten times: the tails of a table of ten', () => {
  expect(binomialUpper(8, 10, 0.5)).toBeCloseTo(11 / 1024, 15)
  expect(binomialMass(5, 10, 0.5)).toBeCloseTo(252 / 1024, 15)
})

test.each([
  [() => binomialLower(Number.NaN, 5, 0.3), /got NaN/],
  [() => binomialUpper(1, 5.5, 0.3), /got 5.5/],
  [() => binomialMass(1.5, 5, 0.3), /got 1.5/],
  [() => binomialMass(1, 5, 1.3), /got 1.3/],
  [() => binomialQuantile(-1, 5, 0.3), /got -1/],
])('a broken promise is refused, repeating the value (%#)', (ask, message) => {
  expect(ask).toThrow(message)
})
