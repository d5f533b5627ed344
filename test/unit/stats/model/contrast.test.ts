import { expect, test } from 'vitest'
import { around, estimateContrast, studentReach } from '@/lib/stats/model/contrast'

const effects = {
  beta: Float64Array.of(5, 2),
  covariance: Float64Array.of(1, 0.5, 0.5, 4),
  df: () => 10,
  test: () => ({ F: null, df1: 1, df2: null, p: null }),
}

test('a contrast has the variance of its weights and the t of its table', () => {
  const got = estimateContrast(effects, Float64Array.of(1, -1), 0.95)
  expect(got.estimate).toBe(3)
  expect(got.se).toBeCloseTo(Math.sqrt(1 + 4 - 2 * 0.5), 12)
  // t(10) at 0.975 is 2.228139 in printed tables (Fisher and Yates, table III): six decimals
  expect(got.interval?.[1]).toBeCloseTo(3 + 2 * 2.228139, 5)
})

test('a reach is asked once for degrees of freedom equal to twelve digits', () => {
  expect(studentReach(0.95, 10)).toBe(studentReach(0.95, 10 * (1 + 1e-15)))
  expect(around(5, 2, 3)).toEqual([-1, 11])
})

test('without degrees of freedom there is no t', () => {
  expect(estimateContrast({ ...effects, df: () => null }, Float64Array.of(1, 0), 0.95)).toMatchObject({
    t: null,
    p: null,
  })
})
