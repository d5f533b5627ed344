import fc from 'fast-check'
import { expect, test } from 'vitest'
import { normalDensity, normalLower, normalQuantile, normalUpper } from '@/lib/stats/distribution/normal'

const z = fc.double({ min: -30, max: 30, noNaN: true })

test('the tails lie in [0, 1], add to 1 and mirror each other', () => {
  fc.assert(
    fc.property(z, (z) => {
      const [low, up] = [normalLower(z), normalUpper(z)]
      expect(low).toBeGreaterThanOrEqual(0)
      expect(up).toBeLessThanOrEqual(1)
      expect(Math.abs(low + up - 1)).toBeLessThan(1e-15)
      expect(normalLower(-z)).toBe(up)
    }),
  )
})

test('the quantile inverts the smaller tail', () => {
  fc.assert(
    fc.property(fc.double({ min: 1e-290, max: 0.5, noNaN: true }), (p) => {
      expect(Math.abs(normalLower(normalQuantile(p)) / p - 1)).toBeLessThan(1e-11)
    }),
  )
})

test('the density is the slope of the lower tail', () => {
  for (const at of [-2, 0, 0.7, 3]) {
    const slope = (normalLower(at + 1e-5) - normalLower(at - 1e-5)) / 2e-5
    expect(Math.abs(slope - normalDensity(at))).toBeLessThan(1e-9)
  }
})

test('the ends of the line are 0, 1 and infinite', () => {
  expect([normalLower(-Infinity), normalLower(Infinity)]).toEqual([0, 1])
  expect([normalQuantile(0), normalQuantile(0.5), normalQuantile(1)]).toEqual([-Infinity, 0, Infinity])
})

test('what is no number or no share is refused, repeating it', () => {
  expect(() => normalLower(Number.NaN)).toThrow(/got NaN/)
  expect(() => normalUpper(Number.NaN)).toThrow(RangeError)
  expect(() => normalQuantile(1.2)).toThrow(/got 1.2/)
})
