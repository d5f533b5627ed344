import fc from 'fast-check'
import { expect, test } from 'vitest'
import { normalLower } from '@/lib/stats/distribution/normal'
import { studentLower, studentQuantile, studentTwoSided, studentUpper } from '@/lib/stats/distribution/student'

const t = fc.double({ min: -50, max: 50, noNaN: true })
const df = fc.double({ min: 0.3, max: 1e5, noNaN: true })

test('the tails lie in [0, 1], add to 1, mirror each other, and twice the smaller is the two-sided p', () => {
  fc.assert(
    fc.property(t, df, (t, df) => {
      const [low, up] = [studentLower(t, df), studentUpper(t, df)]
      expect(Math.min(low, up)).toBeGreaterThanOrEqual(0)
      expect(Math.abs(low + up - 1)).toBeLessThan(1e-12)
      expect(studentLower(-t, df)).toBe(up)
      expect(Math.abs(studentTwoSided(t, df) - 2 * Math.min(low, up))).toBeLessThan(1e-12)
    }),
  )
})

test('the lower tail grows with t', () => {
  fc.assert(
    fc.property(t, fc.double({ min: 1e-6, max: 5, noNaN: true }), df, (t, more, df) => {
      expect(studentLower(t + more, df)).toBeGreaterThanOrEqual(studentLower(t, df))
    }),
  )
})

test('the quantile inverts the smaller tail', () => {
  fc.assert(
    fc.property(fc.double({ min: 1e-60, max: 0.49, noNaN: true }), df, (p, df) => {
      const q = studentQuantile(p, df)
      fc.pre(Number.isFinite(q))
      expect(Math.abs(studentLower(q, df) / p - 1)).toBeLessThan(1e-10)
      expect(studentQuantile(1 - p, df)).toBeGreaterThan(0)
    }),
  )
})

test('one degree of freedom is Cauchy and two have a closed form', () => {
  for (const t of [1e-9, 0.01, 1, 40, 1e6]) {
    expect(Math.abs(studentLower(t, 1) - (0.5 + Math.atan(t) / Math.PI))).toBeLessThan(1e-15)
    expect(Math.abs(studentLower(t, 2) - (0.5 + t / (2 * Math.sqrt(2 + t * t))))).toBeLessThan(1e-15)
  }
})

test('infinitely many degrees of freedom are the normal', () => {
  expect(studentLower(1.3, Infinity)).toBe(normalLower(1.3))
  expect(studentQuantile(0.975, Infinity)).toBeCloseTo(1.959963984540054, 12)
})

test('a t so large that its square overflows still has its tail', () => {
  expect(studentUpper(1e200, 1)).toBeCloseTo(1 / (Math.PI * 1e200), 210)
  expect(studentUpper(1e200, 1) * Math.PI * 1e200).toBeCloseTo(1, 10)
})

test.each([
  [() => studentLower(1, 0), /got 0/],
  [() => studentUpper(1, -2), /got -2/],
  [() => studentTwoSided(Number.NaN, 3), /got NaN/],
  [() => studentQuantile(1.5, 3), /got 1.5/],
  [() => studentQuantile(0.5, Number.NaN), /got NaN/],
])('a broken promise is refused, repeating the value (%#)', (ask, message) => {
  expect(ask).toThrow(RangeError)
  expect(ask).toThrow(message)
})
