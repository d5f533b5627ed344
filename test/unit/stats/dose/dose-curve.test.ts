import { expect, test } from 'vitest'
import { doseCurve } from '@/lib/stats/dose/dose-curve'

const scores = ['x', 'y', 'z'].flatMap((taster, i) =>
  [2, 4, 6, 8].map((dose, j) => ({
    taster,
    dose,
    score: 5 + i - 0.2 * (dose - 5) ** 2 + ([0.3, -0.2, 0.1, -0.1][(i + j) % 4] ?? 0),
  })),
)

test('a dose in other units gives the same curve in those units', () => {
  const { coefficients, lackOfFit } = doseCurve(scores)
  const scaled = doseCurve(scores.map((row) => ({ ...row, dose: row.dose * 100 })))
  expect(scaled.coefficients[1].estimate).toBeCloseTo(coefficients[1].estimate / 100, 10)
  expect(scaled.coefficients[2].p ?? 0).toBeCloseTo(coefficients[2].p ?? 1, 8)
  expect(scaled.lackOfFit?.F ?? 0).toBeCloseTo(lackOfFit?.F ?? 1, 8)
})

test('a constant on all scores moves the intercept only', () => {
  const { coefficients } = doseCurve(scores)
  const moved = doseCurve(scores.map((row) => ({ ...row, score: row.score + 100 })))
  expect(moved.coefficients[0].estimate).toBeCloseTo(coefficients[0].estimate + 100, 9)
  expect(moved.coefficients[1].estimate).toBeCloseTo(coefficients[1].estimate, 9)
  expect(moved.coefficients[2].se ?? 0).toBeCloseTo(coefficients[2].se ?? 1, 9)
})

test('one taster is fitted by least squares, on scores less three df', () => {
  const { coefficients, why } = doseCurve(scores.filter(({ taster }) => taster === 'x'))
  expect(why).toBeNull()
  expect(coefficients[2].df).toBe(1)
})

test('scores on the curve itself leave nothing to judge by', () => {
  const exact = scores.map((row) => ({ ...row, score: 1 + row.dose - 0.25 * row.dose ** 2 }))
  expect(doseCurve(exact)).toMatchObject({ why: 'no residual', covariance: null })
  expect(doseCurve(exact).coefficients[2].estimate).toBeCloseTo(-0.25, 9)
})
