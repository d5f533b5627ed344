/**
 * Hours of sleep gained under two drugs, ten patients.
 * Printed   Student (1908), Biometrika 6(1), p. 20, Illustration I: mean +1.58, S.D. 1.17 (his divisor is n).
 * Made      data/t_intervals_effects.json, R 4.2.2, t.test(conf.level = 0.95)
 */
import { expect, test } from 'vitest'
import reference from './data/t_intervals_effects.json'
import { mean, sampleDeviation, sampleVariance } from '@/lib/stats/describe'
import { studentTwoSided } from '@/lib/stats/distribution/student'
import { meanInterval } from '@/lib/stats/interval'

const first = Object.freeze([0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0, 2])
const second = Object.freeze([1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4])
const gained = second.map((x, i) => x - (first[i] ?? NaN))
const printed = { mean: 1.58, spread: 1.17, within: 0.005 }
const WITHIN = 1e-9

test('mean and spread agree with the page Student printed', () => {
  expect(Math.abs(mean(gained) - printed.mean)).toBeLessThan(printed.within)
  expect(Math.abs(Math.sqrt((sampleVariance(gained) * 9) / 10) - printed.spread)).toBeLessThan(printed.within)
})

test('the 95 % interval of the gain and its p agree with R', () => {
  const { mean: centre, se, df, interval } = meanInterval(gained, 0.95)
  const { t, p, ci } = reference.values.paired
  expect(df).toBe(9)
  expect(Math.abs(centre / se + t)).toBeLessThan(WITHIN)
  expect(Math.abs(studentTwoSided(t, df) - p)).toBeLessThan(WITHIN)
  expect(Math.abs(interval[0] + (ci[1] ?? NaN))).toBeLessThan(WITHIN)
  expect(Math.abs(interval[1] + (ci[0] ?? NaN))).toBeLessThan(WITHIN)
})

test('the intervals of either drug agree with R', () => {
  for (const [readings, expected] of [
    [first, reference.values.group1],
    [second, reference.values.group2],
  ] as const) {
    const { mean: centre, se, interval } = meanInterval(readings, 0.95)
    expect(Math.abs(centre - expected.mean)).toBeLessThan(WITHIN)
    expect(Math.abs(se - expected.se)).toBeLessThan(WITHIN)
    expect(Math.abs(sampleDeviation(readings) - expected.sd)).toBeLessThan(WITHIN)
    interval.forEach((end, i) => expect(Math.abs(end - (expected.ci[i] ?? NaN))).toBeLessThan(WITHIN))
  }
})

test('the p of the pooled and of Welch’s t agree with R', () => {
  for (const { t, df, p } of [reference.values.welch, reference.values.pooled]) {
    expect(Math.abs(studentTwoSided(t, df) - p)).toBeLessThan(WITHIN)
  }
})
