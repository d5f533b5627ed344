/**
 * Exact power of the two one-sided tests, paired.
 * Made      make/equivalence-power.R, R 4.2.2's own integrate() over s/σ; absolute 1e-9. And data/power_sample_size.json,
 *           `tost_paired`, made separately.
 * Method    Phillips (1990), J. Pharmacokinetics and Biopharmaceutics 18, 137–144
 */
import { expect, test } from 'vitest'
import second from './data/power_sample_size.json'
import reference from './data/equivalence-power.json'
import { tastersForEquivalence } from '@/lib/stats/plan/score-power'

test.each(reference.cases)('n $n, sd $sd, margin $margin, truth $truth, alpha $alpha', (row) => {
  const { n, sd, margin, truth, alpha, power } = row
  const found = tastersForEquivalence({ sd, margin, alpha, truth }, { n }).power
  expect(Math.abs(found - power)).toBeLessThan(reference.tolerance)
})

test.each(second.values.tost_paired)('n $n, margin $margin, sd of differences $sdd', (row) => {
  const question = { sd: row.sdd * Math.SQRT1_2, margin: row.margin, alpha: 0.05 }
  expect(Math.abs(tastersForEquivalence(question, { n: row.n }).power - row.power)).toBeLessThan(1e-9)
})
