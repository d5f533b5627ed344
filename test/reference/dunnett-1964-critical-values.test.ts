/**
 * Comparisons with a control, and all pairs.
 * Printed   Dunnett (1955, 1964): two-sided 5 % values, correlation one half: (2, 10) 2.57, (3, 10) 2.76, (2, 20) 2.38,
 *           (3, 20) 2.54, (2, ∞) 2.21, (3, ∞) 2.35 (from memory, reproduced in R)
 * Made      data/range_and_dunnett_quantiles.json (R 4.2.2 two-fold integration, 1e-6; studentized range by mpmath to
 *           1e-11), data/recovery_dunnett.json (unequal numbers, exact integration, 1e-6)
 */
import { expect, test } from 'vitest'
import reference from './data/range_and_dunnett_quantiles.json'
import recovery from './data/recovery_dunnett.json'
import { manyToOneOutside, manyToOneQuantile } from '@/lib/stats/distribution/many-to-one'
import { studentizedRangeLower, studentizedRangeQuantile } from '@/lib/stats/distribution/studentized-range'

const equal = (m: number) =>
  Array.from({ length: m }, (_, i) => Array.from({ length: m }, (_, j) => (i === j ? 1 : 0.5)))

test.each([
  [2, 10, 2.57],
  [3, 10, 2.76],
  [2, 20, 2.38],
  [3, 20, 2.54],
  [2, Infinity, 2.21],
  [3, Infinity, 2.35],
])('%s comparisons on %s degrees of freedom give the printed value', (m, df, printed) => {
  expect(Math.abs(manyToOneQuantile(0.95, df, equal(m)) - printed)).toBeLessThanOrEqual(0.005 + 1e-9)
})

test.each(reference.values.dunnett)('$p comparisons, df $df: the two-sided 5 % value', ({ p, df, d_two_sided_05 }) => {
  expect(Math.abs(manyToOneQuantile(0.95, df ?? Infinity, equal(p)) - d_two_sided_05)).toBeLessThan(1e-6)
})

test('the blankets of the recovery data, 20, 3, 3 and 15 patients', () => {
  const loadings = [3, 3, 15].map((n) => Math.sqrt(n / (n + 20)))
  const correlation = loadings.map((a, i) => loadings.map((b, j) => (i === j ? 1 : a * b)))
  for (const row of recovery.values.dunnett) {
    expect(Math.abs(manyToOneOutside(Math.abs(row['t.ratio']), row.df, correlation) - row.p_dunnett_two)).toBeLessThan(
      1e-6,
    )
  }
})

test('72 probabilities of the studentized range', () => {
  expect(reference.values.cdf_mpmath).toHaveLength(72)
  for (const { q, k, df, p } of reference.values.cdf_mpmath) {
    expect(Math.abs(studentizedRangeLower(q, k, df) - p), `${q}, ${k}, ${df}`).toBeLessThan(2e-11)
  }
})

test('quantiles of the studentized range from 10 degrees of freedom, where R is right to 1e-5', () => {
  for (const { alpha, k, df, q } of reference.values.q) {
    if (df !== null && df < 10) continue
    expect(Math.abs(studentizedRangeQuantile(1 - alpha, k, df ?? Infinity) - q), `${k}, ${df}`).toBeLessThan(1e-5)
  }
})
