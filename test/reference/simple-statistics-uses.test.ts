/**
 * The four things simple-statistics is used for. Certified and printed values:
 * NIST StRD univariate: Lottery, Mavro and NumAcc sets of that collection are made of such leads; here NumAcc1 (three
 * whole numbers, certified mean 10000002 and standard deviation 1) and NumAcc3's pattern (1000000.1 … .3, certified mean
 * 1000000.2, standard deviation 0.1), written out because they are defined by a rule. From memory, closed form.
 * Hyndman and Fan (1996): type 7; values from R 4.2.2, quantile(x, p, type = 7).
 */
import { expect, test } from 'vitest'
import { mean, median, quantile, sampleDeviation, sampleVariance } from '@/lib/stats/describe'

const numAcc1 = Object.freeze([10000001, 10000003, 10000002])
/** 1000000.2, then 1000000.1 and 1000000.3 in turn, 1001 readings in all */
const numAcc3 = Object.freeze([
  1000000.2,
  ...Array.from({ length: 1000 }, (_, i) => (i % 2 === 0 ? 1000000.1 : 1000000.3)),
])

test('a long constant lead costs the mean and the deviation no digits that matter', () => {
  expect(mean(numAcc1)).toBe(10000002)
  expect(sampleDeviation(numAcc1)).toBe(1)
  expect(Math.abs(mean(numAcc3) - 1000000.2)).toBeLessThan(1e-9)
  expect(Math.abs(sampleDeviation(numAcc3) - 0.1)).toBeLessThan(1e-9)
})

test('the variance divides by n − 1', () => {
  expect(sampleVariance([2, 4])).toBe(2)
})

test('quantiles are of type 7, as R gives them', () => {
  expect(quantile([1, 2, 3, 4, 10], 0.3)).toBeCloseTo(2.2, 12)
  expect(quantile([3, 6, 7, 8, 8, 10, 13, 15, 16, 20], 0.25)).toBeCloseTo(7.25, 12)
  expect(quantile([20, 3, 8, 6, 15, 7, 8, 16, 10, 13], 0.25)).toBeCloseTo(7.25, 12)
  expect([quantile([4, 1, 9], 0), quantile([4, 1, 9], 1)]).toEqual([1, 9])
})

test('the median halves the readings, and lies between two where their number is even', () => {
  expect(median([9, 1, 4])).toBe(4)
  expect(median([9, 1, 4, 5])).toBe(4.5)
})
