import { expect, test } from 'vitest'
import { oneSided, sequentialLines } from '@/lib/stats/difference/sequential-lines'

const plan = { p1: 0.75, alpha: 0.1, beta: 0.1, max: 50 }

test('the lines are Wald’s at half of alpha', () => {
  // D = ln 3; slope = ln 2 / ln 3; upper = ln(0.9 / 0.05) / ln 3; lower = ln(0.1 / 0.95) / ln 3, by hand
  const { slope, lower, upper } = sequentialLines(plan)
  expect(slope).toBeCloseTo(Math.log(2) / Math.log(3), 12)
  expect(upper).toBeCloseTo(Math.log(18) / Math.log(3), 12)
  expect(lower).toBeCloseTo(Math.log(0.1 / 0.95) / Math.log(3), 12)
})

test('a count on a line has met it', () => {
  const lines = { slope: 0.6, lower: -2, upper: 2 }
  expect(oneSided(lines, 8, 10)).toBe('shown')
  expect(oneSided(lines, 4, 10)).toBe('not shown')
  expect(oneSided(lines, 5, 10)).toBe('running')
})

test('impossible plans are refused by value', () => {
  expect(() => sequentialLines({ ...plan, p1: 0.5 })).toThrow('got 0.5')
  expect(() => sequentialLines({ ...plan, p1: 1 })).toThrow('got 1')
  expect(() => sequentialLines({ ...plan, alpha: 0 })).toThrow('got 0')
  expect(() => sequentialLines({ ...plan, beta: 1 })).toThrow('got 1')
  expect(() => sequentialLines({ ...plan, alpha: 0.9, beta: 0.6 })).toThrow('0.9 and 0.6')
  expect(() => sequentialLines({ ...plan, max: 2.5 })).toThrow('got 2.5')
})
