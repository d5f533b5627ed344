import fc from 'fast-check'
import { expect, test } from 'vitest'
import { studentTwoSided } from '@/lib/stats/distribution/student'
import {
  studentizedRangeLower,
  studentizedRangeQuantile,
  studentizedRangeUpper,
} from '@/lib/stats/distribution/studentized-range'

const q = fc.double({ min: 0.01, max: 30, noNaN: true })
const groups = fc.integer({ min: 2, max: 14 })
const df = fc.double({ min: 1.5, max: 500, noNaN: true })

test('with two groups it is t times the root of two', () => {
  fc.assert(
    fc.property(q, df, (q, df) => {
      expect(Math.abs(studentizedRangeUpper(q, 2, df) - studentTwoSided(q / Math.SQRT2, df))).toBeLessThan(1e-11)
    }),
  )
})

test('the tails lie in [0, 1] and add to 1; more groups reach further', () => {
  fc.assert(
    fc.property(q, groups, df, (q, groups, df) => {
      const [low, up] = [studentizedRangeLower(q, groups, df), studentizedRangeUpper(q, groups, df)]
      expect(Math.min(low, up)).toBeGreaterThanOrEqual(0)
      expect(Math.abs(low + up - 1)).toBeLessThan(1e-12)
      expect(studentizedRangeUpper(q, groups + 1, df)).toBeGreaterThanOrEqual(up - 1e-13)
    }),
    { numRuns: 60 },
  )
})

test('three normal readings have the range of a closed form at infinite degrees of freedom', () => {
  // P(range of two > q) = 2 Φ(−q/√2)
  expect(studentizedRangeUpper(2.5, 2, Infinity)).toBeCloseTo(studentTwoSided(2.5 / Math.SQRT2, Infinity), 13)
})

test('the quantile inverts the smaller tail and is remembered', () => {
  for (const p of [0.05, 0.5, 0.95, 0.999]) {
    const found = studentizedRangeQuantile(p, 5, 33.3)
    expect(Math.abs(studentizedRangeLower(found, 5, 33.3) - p)).toBeLessThan(1e-11)
    expect(studentizedRangeQuantile(p, 5, 33.3)).toBe(found)
  }
  expect([studentizedRangeQuantile(0, 3, 5), studentizedRangeQuantile(1, 3, 5)]).toEqual([0, Infinity])
})

test('at or below 0 nothing lies', () => {
  expect([
    studentizedRangeLower(-1, 3, 5),
    studentizedRangeUpper(0, 3, 5),
    studentizedRangeUpper(Infinity, 3, 5),
  ]).toEqual([0, 1, 0])
})

test.each([
  [() => studentizedRangeLower(Number.NaN, 3, 5), /got NaN/],
  [() => studentizedRangeUpper(1, 1, 5), /got 1/],
  [() => studentizedRangeUpper(1, 2.5, 5), /got 2.5/],
  [() => studentizedRangeUpper(1, 3, 0), /got 0/],
  [() => studentizedRangeQuantile(-1, 3, 5), /got -1/],
])('a broken promise is refused, repeating the value (%#)', (ask, message) => {
  expect(ask).toThrow(message)
})
