/**
 * Triangle, duo-trio, 2-AFC, 3-AFC and tetrad.
 * Printed   491 cells of tables of critical numbers: ISO 4120 (triangle, as printed by the FAO), ISO 10399:2004 A.1,
 *           ISO 5495:2005 A.1 (data/disc_critical_numbers.json, `published_vs_exact`, source beside each); compared exactly
 * Printed   50 cells of ISO 5495:2005 table A.3 for similarity; where print and the exact binomial differ the file says so
 * Made      R 4.2.2: critical numbers, similarity, d-prime by the Thurstonian formulas checked by simulation.
 *           Tolerance 1e-6 for d-prime (the reference integrates to that), 1e-9 for exact tails
 */
import { expect, test } from 'vitest'
import critical from './data/disc_critical_numbers.json'
import dPrimes from './data/disc_dprime.json'
import similar from './data/disc_similarity_max.json'
import { criticalNumber, similarityNumber } from '@/lib/stats/difference/critical-number'
import { dPrimeOf } from '@/lib/stats/difference/d-prime'
import { difference } from '@/lib/stats/difference/difference-test'
import type { Protocol } from '@/lib/stats/difference/protocol'
import { psychometric } from '@/lib/stats/difference/psychometric'

const ALPHAS = [0.2, 0.1, 0.05, 0.01, 0.001] as const
const NAMES: Record<string, Protocol> = {
  twoAFC: 'two-afc',
  threeAFC: 'three-afc',
  duotrio: 'duo-trio',
  triangle: 'triangle',
  tetrad: 'tetrad',
}

function near(found: number | null, expected: number | null | undefined, within: number): void {
  if (expected === null || expected === undefined) expect(found).toBeNull()
  else expect(Math.abs((found ?? NaN) - expected)).toBeLessThan(within)
}

test.each([
  ['pg_third', 1 / 3, 1],
  ['pg_half_one_sided', 1 / 2, 1],
  ['pg_half_two_sided', 1 / 2, 2],
] as const)('%s: every critical number is that of the exact binomial', (name, guessing, sides) => {
  for (const row of critical.values[name]) {
    for (const alpha of ALPHAS) {
      const expected = (row as Record<string, number | null>)[`a${alpha}`] ?? null
      expect(criticalNumber(row.n, guessing, alpha / sides), `n ${row.n}, alpha ${alpha}`).toBe(expected)
    }
  }
})

test('all 491 printed cells are met', () => {
  const cells = critical.values.published_vs_exact
  expect(cells).toHaveLength(491)
  for (const { table, n, alpha, published } of cells) {
    const guessing = /triangle/i.test(table) ? 1 / 3 : 1 / 2
    expect(criticalNumber(n, guessing, alpha), `${table}, n ${n}, alpha ${alpha}`).toBe(published)
  }
})

test.each([
  ['pg_third', 1 / 3],
  ['pg_half', 1 / 2],
] as const)('%s: the largest count that still means similar', (name, guessing) => {
  for (const row of similar.values[name]) {
    for (const tenths of [1, 2, 3, 4, 5]) {
      const expected = (row as Record<string, number | null>)[`pd${tenths}0`] ?? null
      const found = similarityNumber(row.n, guessing + ((1 - guessing) * tenths) / 10, row.beta)
      // the table leaves out counts below guessing
      if (expected !== null) expect(found, `n ${row.n}, beta ${row.beta}, pd ${tenths}0 %`).toBe(expected)
      else expect((found ?? 0) < row.n * guessing).toBe(true)
    }
  }
})

test('table A.3 of ISO 5495 is met wherever the exact binomial it claims agrees with its print', () => {
  const cells = similar.values.iso5495_tableA3_seen
  expect(cells).toHaveLength(50)
  for (const cell of cells) {
    const found = similarityNumber(cell.n, 0.5 + cell.pd / 2, cell.beta)
    if (cell.published === null) expect(found ?? 0).toBeLessThan(cell.n / 2)
    else if (cell.agree) expect(found).toBe(cell.published)
    else if (cell.exact !== null) expect(found).toBe(cell.exact)
  }
})

test('the share right at each distance', () => {
  for (const row of dPrimes.values.psychometric) {
    for (const [name, protocol] of Object.entries(NAMES)) {
      const expected = (row as Record<string, number>)[name] ?? NaN
      expect(Math.abs(psychometric(protocol, row.dprime).share - expected), `${name} at ${row.dprime}`).toBeLessThan(
        1e-9,
      )
    }
  }
})

test('the distance leads back from the share right', () => {
  for (const protocol of Object.values(NAMES)) {
    for (const d of [0.4, 1, 1.7, 3]) near(dPrimeOf(protocol, psychometric(protocol, d).share), d, 1e-9)
  }
})

test.each(dPrimes.values.estimates)(
  '$method, $correct of $n: p, share who can tell, d-prime with se and limits',
  (row) => {
    const protocol = NAMES[row.method] ?? 'triangle'
    const answer = difference({ protocol, correct: row.correct, total: row.n }, { level: 0.95 })
    near(answer.p, row.p_value, 1e-9)
    const signed = row.signed ?? row
    near(answer.dPrime.estimate, row.correct === row.n ? null : (signed.dprime as number | null), 1e-6)
    near(answer.dPrime.se, signed.se as number | null, 1e-6)
    if (row.correct < row.n) {
      answer.dPrime.interval.forEach((end, i) => near(end, signed.ci_exact[i] as number, 1e-6))
    } else {
      near(answer.dPrime.interval[0], signed.ci_exact[0] as number, 1e-6)
      expect(answer.dPrime.interval[1]).toBeNull()
    }
    // the reference cuts the share who can tell at 0 under every protocol; ours only where there is no direction
    near(Math.max(0, answer.distinguishing.estimate), row.pd, 1e-9)
    answer.distinguishing.interval.forEach((end, i) => near(Math.max(0, end), row.pd_ci_exact[i], 1e-9))
  },
)
