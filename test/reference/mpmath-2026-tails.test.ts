/**
 * Points off the grids, with 50 digits: make/mpmath-tails.py (continued fraction and series, not the routes of our
 * library). Relative 1e-9 for the closed families, absolute 1e-10 for the noncentral t.
 */
import { expect, test } from 'vitest'
import reference from './data/mpmath-tails.json'
import { relativeError, worstRow } from '../support/grid'
import { logBeta } from '@/lib/stats/distribution/beta'
import { binomialLower, binomialMass, binomialUpper } from '@/lib/stats/distribution/binomial'
import { chiSquaredLower, chiSquaredQuantile, chiSquaredUpper } from '@/lib/stats/distribution/chi-squared'
import { fLower, fQuantile, fUpper } from '@/lib/stats/distribution/f'
import { noncentralStudentLower, noncentralStudentQuantile } from '@/lib/stats/distribution/noncentral-student'
import { studentLower, studentQuantile, studentTwoSided, studentUpper } from '@/lib/stats/distribution/student'
import { anytime } from '@/lib/stats/interval'

const WITHIN = reference.tolerance

function expectClose(rows: readonly number[][], error: (row: readonly number[]) => number, within = WITHIN): void {
  const worst = worstRow(rows, error)
  expect(worst.error, worst.row).toBeLessThan(within)
}

test('both tails and the two-sided p of t, from half a degree of freedom to 3e8', () => {
  expectClose(reference.student, ([x = NaN, df = NaN, low = NaN, up = NaN]) =>
    Math.max(
      relativeError(studentLower(x, df), low),
      relativeError(studentUpper(x, df), up),
      relativeError(studentTwoSided(x, df), 2 * up),
      relativeError(studentLower(-x, df), up),
    ),
  )
})

test('the t quantile leads back from the smaller tail', () => {
  const rows = reference.student.filter(([, , , up = 0]) => up > 0)
  expectClose(rows, ([x = NaN, df = NaN, , up = NaN]) => (x < 1e-3 ? 0 : relativeError(-studentQuantile(up, df), x)))
})

test('both tails of F, and the quantile of the lower one', () => {
  expectClose(reference.f, ([x = NaN, a = NaN, b = NaN, low = NaN, up = NaN]) =>
    Math.max(relativeError(fLower(x, a, b), low), relativeError(fUpper(x, a, b), up)),
  )
  const rows = reference.f.filter(([, , , low = 0]) => low > 0 && low < 0.5)
  expectClose(rows, ([x = NaN, a = NaN, b = NaN, low = NaN]) => relativeError(fQuantile(low, a, b), x))
})

test('both tails of chi-squared, and the quantile of the lower one', () => {
  expectClose(reference.chiSquared, ([x = NaN, df = NaN, low = NaN, up = NaN]) =>
    Math.max(relativeError(chiSquaredLower(x, df), low), relativeError(chiSquaredUpper(x, df), up)),
  )
  const rows = reference.chiSquared.filter(([, , low = 0]) => low > 0 && low < 0.5)
  expectClose(rows, ([x = NaN, df = NaN, low = NaN]) => relativeError(chiSquaredQuantile(low, df), x))
})

test('binomial masses and tails, up to a hundred thousand trials', () => {
  expectClose(reference.binomial, ([k = NaN, n = NaN, p = NaN, mass = NaN, low = NaN, up = NaN]) =>
    Math.max(
      relativeError(binomialMass(k, n, p), mass),
      relativeError(binomialLower(k, n, p), low),
      relativeError(binomialUpper(k, n, p), up),
    ),
  )
})

test('the logarithm of the beta function, small beside large', () => {
  expectClose(reference.logBeta, ([a = NaN, b = NaN, log = NaN]) => relativeError(logBeta(a, b), log), 1e-12)
})

test('the noncentral t and its quantile', () => {
  expectClose(
    reference.noncentralStudent,
    ([x = NaN, df = NaN, delta = NaN, low = NaN]) => Math.abs(noncentralStudentLower(x, df, delta) - low),
    1e-10,
  )
  const rows = reference.noncentralStudent.filter(([, , , low = 0]) => low > 1e-6)
  expectClose(
    rows,
    ([x = NaN, df = NaN, delta = NaN, low = NaN]) => relativeError(noncentralStudentQuantile(low, df, delta), x),
    1e-7,
  )
})

test('the interval that holds at any time', () => {
  expectClose(reference.anytime, ([x = NaN, n = NaN, level = NaN, low = NaN, high = NaN]) => {
    const [from, to] = anytime(x, n, level)
    return Math.max(relativeError(from, low), relativeError(to, high))
  })
})
