import { expect, test } from 'vitest'
import { pairedDifference } from '@/lib/stats/liking/paired-difference'

test('mean, standard error and t follow from the differences by hand', () => {
  // 1, 2, 3: mean 2, variance 1, se 1/√3
  const got = pairedDifference(Float64Array.of(1, 2, 3), 0.95, 1e-15)
  expect(got).toMatchObject({ n: 3, difference: 2, df: 2 })
  expect(got.se).toBeCloseTo(1 / Math.sqrt(3), 12)
  expect(got.t).toBeCloseTo(2 * Math.sqrt(3), 12)
  // two-sided p with 2 df in closed form: 1 − t/√(2 + t²)
  expect(got.p).toBeCloseTo(1 - Math.sqrt(12 / 14), 10)
})

test('no taster, one taster and no spread have nulls, never a NaN', () => {
  expect(pairedDifference(new Float64Array(0), 0.95, 1e-15)).toMatchObject({ n: 0, difference: null, p: null })
  expect(pairedDifference(Float64Array.of(2), 0.95, 1e-15)).toMatchObject({ n: 1, difference: 2, se: null, p: null })
  expect(pairedDifference(Float64Array.of(2, 2), 0.95, 1e-15)).toMatchObject({ n: 2, se: 0, df: 1, t: null, p: null })
})
