import fc from 'fast-check'
import { expect, test } from 'vitest'
import {
  noncentralStudentLower,
  noncentralStudentQuantile,
  noncentralStudentUpper,
} from '@/lib/stats/distribution/noncentral-student'
import { normalLower } from '@/lib/stats/distribution/normal'
import { studentLower } from '@/lib/stats/distribution/student'

const t = fc.double({ min: -15, max: 15, noNaN: true })
const df = fc.double({ min: 1, max: 300, noNaN: true })
const delta = fc.double({ min: -8, max: 8, noNaN: true })

test('the tails lie in [0, 1], add to 1, and mirror with the sign of the shift', () => {
  fc.assert(
    fc.property(t, df, delta, (t, df, delta) => {
      const [low, up] = [noncentralStudentLower(t, df, delta), noncentralStudentUpper(t, df, delta)]
      expect(Math.min(low, up)).toBeGreaterThanOrEqual(0)
      expect(Math.abs(low + up - 1)).toBeLessThan(1e-12)
      expect(Math.abs(noncentralStudentLower(-t, df, -delta) - up)).toBeLessThan(1e-12)
    }),
  )
})

test('a vanishing shift is the central t, by the integral as well', () => {
  for (const t of [-2, 0.3, 5]) {
    expect(Math.abs(noncentralStudentLower(t, 7.5, 1e-14) - studentLower(t, 7.5))).toBeLessThan(1e-12)
  }
})

test('infinitely many degrees of freedom are a shifted normal', () => {
  expect(noncentralStudentLower(1.5, Infinity, 2)).toBeCloseTo(normalLower(-0.5), 14)
})

test('the quantile inverts the lower tail', () => {
  for (const p of [0.001, 0.3, 0.9, 0.999]) {
    expect(noncentralStudentLower(noncentralStudentQuantile(p, 11, 2.5), 11, 2.5)).toBeCloseTo(p, 11)
  }
  expect([noncentralStudentQuantile(0, 3, 1), noncentralStudentQuantile(1, 3, 1)]).toEqual([-Infinity, Infinity])
})

test.each([
  [() => noncentralStudentLower(Number.NaN, 3, 1), /got NaN/],
  [() => noncentralStudentUpper(1, 0, 1), /got 0/],
  [() => noncentralStudentUpper(0, -1, 1), /got -1/],
  [() => noncentralStudentUpper(1, 3, Infinity), /got Infinity/],
  [() => noncentralStudentQuantile(2, 3, 1), /got 2/],
])('a broken promise is refused, repeating the value (%#)', (ask, message) => {
  expect(ask).toThrow(message)
})
