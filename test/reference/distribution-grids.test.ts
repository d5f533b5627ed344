/**
 * Grids of tails and quantiles made with 40 to 60 digit arithmetic (mpmath), not by us: data/distributions/README.md
 * says how. Tolerances: relative 1e-9 in both tails and in the quantile; what underflows below 1e-300 counts as 0.
 */
import { expect, test } from 'vitest'
import { readGrid, relativeError, worstRow } from '../support/grid'
import { betaLower, betaQuantile, betaUpper } from '@/lib/stats/distribution/beta'
import { binomialLower, binomialUpper } from '@/lib/stats/distribution/binomial'
import { chiSquaredLower, chiSquaredQuantile, chiSquaredUpper } from '@/lib/stats/distribution/chi-squared'
import { fLower, fQuantile, fUpper } from '@/lib/stats/distribution/f'
import { manyToOneInside } from '@/lib/stats/distribution/many-to-one'
import { normalLower, normalQuantile, normalUpper } from '@/lib/stats/distribution/normal'
import { noncentralStudentLower, noncentralStudentUpper } from '@/lib/stats/distribution/noncentral-student'
import { studentLower, studentQuantile, studentUpper } from '@/lib/stats/distribution/student'
import {
  studentizedRangeLower,
  studentizedRangeQuantile,
  studentizedRangeUpper,
} from '@/lib/stats/distribution/studentized-range'

const WITHIN = 1e-9

type Function3 = (a: number, b: number, c: number) => number

/** Three leading columns, then the reference values in the order of `functions`. */
function grid(name: string, leading: number, rows: number, functions: readonly Function3[], within = WITHIN) {
  test(`${name}: all ${rows} rows agree to ${within} of their size`, () => {
    const table = readGrid(name)
    expect(table).toHaveLength(rows)
    const worst = worstRow(table, (row) => {
      const [a = NaN, b = NaN, c = NaN] = row
      return functions.reduce((worst, f, i) => {
        const error = relativeError(f(a, b, c), row[leading + i] ?? NaN)
        return error <= worst ? worst : error
      }, 0)
    })
    expect(worst.error, worst.row).toBeLessThan(within)
  })
}

grid('norm_cdf.tsv', 1, 14, [normalLower])
grid('norm_q.tsv', 1, 17, [normalQuantile])
grid('t_cdf.tsv', 2, 324, [studentLower, studentUpper])
grid('t_q.tsv', 2, 294, [studentQuantile])
grid('f_cdf.tsv', 3, 864, [fLower, fUpper])
grid('f_q.tsv', 3, 644, [fQuantile])
grid('chi2_cdf.tsv', 2, 94, [chiSquaredLower, chiSquaredUpper])
grid('chi2_q.tsv', 2, 180, [chiSquaredQuantile])
grid('betainc.tsv', 3, 726, [betaLower, betaUpper])
grid('beta_q.tsv', 3, 644, [betaQuantile])
grid('binom_cdf.tsv', 3, 195, [binomialLower, binomialUpper])

test('the upper normal tail is the mirror image of the lower one on the grid', () => {
  const worst = worstRow(readGrid('norm_cdf.tsv'), ([z = NaN, p = NaN]) => relativeError(normalUpper(-z), p))
  expect(worst.error, worst.row).toBeLessThan(WITHIN)
})

/** Absolute error, for the integrals. */
function absoluteGrid(name: string, leading: number, rows: number, functions: readonly Function3[], within: number) {
  test(`${name}: all ${rows} rows agree to ${within}`, () => {
    const table = readGrid(name)
    expect(table).toHaveLength(rows)
    const worst = worstRow(table, (row) => {
      const [a = NaN, b = NaN, c = NaN] = row
      return functions.reduce((worst, f, i) => {
        const error = Math.abs(f(a, b, c) - (row[leading + i] ?? NaN))
        return error <= worst ? worst : error
      }, 0)
    })
    expect(worst.error, worst.row).toBeLessThan(within)
  })
}

absoluteGrid('nct_cdf.tsv', 3, 810, [noncentralStudentLower, noncentralStudentUpper], 1e-12)
absoluteGrid('tukey_cdf.tsv', 3, 884, [studentizedRangeLower, studentizedRangeUpper], 1e-12)
grid('tukey_q.tsv', 3, 572, [studentizedRangeQuantile])

/** Loadings of the sets in dunnett_cdf.txt, as its README states them. */
const LOADINGS: Record<number, readonly number[]> = {
  1: [Math.SQRT1_2, Math.SQRT1_2, Math.SQRT1_2],
  2: [0.6, 0.75, 0.8],
  3: [10, 8, 12, 6].map((n) => Math.sqrt(n / (n + 9))),
  4: new Array<number>(7).fill(Math.SQRT1_2),
}

test('dunnett_cdf.txt: all 24 rows agree to 1e-12', () => {
  const table = readGrid('dunnett_cdf.txt')
  expect(table).toHaveLength(24)
  const worst = worstRow(table, ([q = NaN, df = NaN, set = NaN, inside = NaN]) => {
    const loadings = LOADINGS[set] ?? []
    const correlation = loadings.map((a, i) => loadings.map((b, j) => (i === j ? 1 : a * b)))
    return Math.abs(manyToOneInside(q, df, correlation) - inside)
  })
  expect(worst.error, worst.row).toBeLessThan(1e-12)
})
