/**
 * Intervals of one share.
 * Printed   Newcombe (1998), Statistics in Medicine 17, 857–872, table I: four cases to four decimals (figures from
 *           memory, reproduced in R; see data/binomial_intervals.json)
 * Printed   ISO 5495:2005/Amd.1:2016 B.5.2: 21 of 30 and 32 of 44 (data/paired_iso5495_examples.json)
 * Made      R 4.2.2; tolerance 1e-9
 */
import { expect, test } from 'vitest'
import reference from './data/binomial_intervals.json'
import iso from './data/paired_iso5495_examples.json'
import { binomialLower, binomialUpper } from '@/lib/stats/distribution/binomial'
import { clopperPearson, wilson } from '@/lib/stats/interval'

const WITHIN = 1e-9

const NEWCOMBE = [
  { x: 81, n: 263, wilson: [0.2553, 0.3662], exact: [0.2527, 0.3676] },
  { x: 15, n: 148, wilson: [0.0624, 0.1605], exact: [0.0578, 0.1617] },
  { x: 0, n: 20, wilson: [0, 0.1611], exact: [0, 0.1684] },
  { x: 1, n: 29, wilson: [0.0061, 0.1718], exact: [0.0009, 0.1776] },
]

function expectEnds(found: readonly [number, number], expected: readonly number[], within: number): void {
  found.forEach((end, i) => expect(Math.abs(end - (expected[i] ?? NaN))).toBeLessThanOrEqual(within))
}

test.each(NEWCOMBE)('$x of $n agrees with the four printed decimals', ({ x, n, wilson: score, exact }) => {
  expectEnds(wilson(x, n, 0.95), score, 0.00005)
  expectEnds(clopperPearson(x, n, 0.95), exact, 0.00005)
})

test.each(reference.values)(
  '$x of $n agrees with R',
  ({ x, n, wilson: score, clopper_pearson: exact, p_one_vs_half }) => {
    expectEnds(wilson(x, n, 0.95), score, WITHIN)
    expectEnds(clopperPearson(x, n, 0.95), exact, WITHIN)
    expect(Math.abs(binomialUpper(x - 1, n, 0.5) - p_one_vs_half)).toBeLessThan(WITHIN)
  },
)

test.each(iso.values)('$x of $n, a directional pair, agrees with R', (row) => {
  expectEnds(clopperPearson(row.x, row.n, 0.95), row.cp95, WITHIN)
  expectEnds(wilson(row.x, row.n, 0.95), row.wilson95, WITHIN)
  expect(Math.abs(binomialUpper(row.x - 1, row.n, 0.5) - row.p_one_sided)).toBeLessThan(WITHIN)
  expect(Math.abs(2 * binomialLower(row.n - row.x, row.n, 0.5) - row.p_two_sided)).toBeLessThan(WITHIN)
})
