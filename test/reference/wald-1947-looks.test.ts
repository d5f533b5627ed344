/**
 * Tests in steps that are looked at after each sitting only, and Wald's test of guessing.
 * Made   make/looks-and-repeats.R, R 4.2.2: every count followed, another way of writing the same recursion. Within 1e-12
 */
import { expect, test } from 'vitest'
import made from './data/looks-and-repeats.json'
import { sequential, sequentialGuessing } from '@/lib/stats/difference/sequential'

test.each(made.guessing)('guessing $guessing, $max tasters, looked at $looks', (row) => {
  const { guessing, p1, alpha, beta, max, looks } = row
  const telling = (p1 - guessing) / (1 - guessing)
  const { lines, exact, decision } = sequentialGuessing([], { guessing, telling, alpha, beta, max, looks })
  expect(decision).toBe('go on')
  expect(lines.slope).toBeCloseTo(row.slope, 12)
  expect(lines.lower).toBeCloseTo(row.lower, 11)
  expect(lines.upper).toBeCloseTo(row.upper, 11)
  expect(exact.falseAlarm).toBeCloseTo(row.falseAlarm, 12)
  expect(exact.power).toBeCloseTo(row.power, 12)
  expect(exact.averageTasters).toBeCloseTo(row.average, 10)
  expect(exact.averageTastersAtP1).toBeCloseTo(row.averageAtP1, 10)
})

test.each(made.preference)('preference at $p1, $max tasters, looked at $looks', (row) => {
  const { p1, alpha, beta, max, looks } = row
  const { exact } = sequential([], { p1, alpha, beta, max, looks })
  expect(exact.falseAlarm).toBeCloseTo(row.falseAlarm, 12)
  expect(exact.power).toBeCloseTo(row.power, 12)
  expect(exact.averageTasters).toBeCloseTo(row.average, 10)
  expect(exact.averageTastersAtP1).toBeCloseTo(row.averageAtP1, 10)
})

test('a decision falls at a look, not between two', () => {
  const plan = { guessing: 1 / 3, telling: 0.3, alpha: 0.05, beta: 0.1, max: 60 }
  const right = Array.from({ length: 30 }, () => true)
  const each = sequentialGuessing(right, plan)
  expect(each.decision).toBe('difference')
  expect(sequentialGuessing(right, { ...plan, looks: [12, 24] })).toMatchObject({ decision: 'difference', at: 12 })
  expect(each.at).toBeLessThan(12)
  expect(sequentialGuessing(right.slice(0, 11), { ...plan, looks: [12, 24] }).decision).toBe('go on')
})

test.each([{ looks: [12, 12] }, { looks: [12, 70] }, { looks: [0] }, { telling: 1 }, { alpha: 0.6, beta: 0.5 }])(
  'a plan that cannot be followed is refused: %j',
  (wrong) => {
    const plan = { guessing: 1 / 3, telling: 0.3, alpha: 0.05, beta: 0.1, max: 60, ...wrong }
    expect(() => sequentialGuessing([], plan)).toThrow(RangeError)
  },
)
