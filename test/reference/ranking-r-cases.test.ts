/**
 * Printed   ISO 8587:1988 annex: 8 tasters, 5 cups, least significant difference 12.4 (data/friedman_examples.json, R 4.2.2).
 * Made      make/ranks-and-choices.R: variance of rank sums over every order of every taster in an incomplete plan.
 * Within    1e-9
 */
import { expect, test } from 'vitest'
import { ranking } from '@/lib/stats/rank/ranking'
import { expectAllNear, expectNear } from '../support/near'
import examples from './data/friedman_examples.json'
import made from './data/ranks-and-choices.json'

const rowsOf = (table: readonly (readonly (number | null)[])[]) =>
  table.flatMap((row, i) => row.map((rank, j) => ({ taster: `t${i}`, cup: `c${j}`, rank })))

test('the least significant difference of eight tasters and five cups', () => {
  const table = Array.from({ length: 8 }, (_, i) => [0, 1, 2, 3, 4].map((j) => ((i + j) % 5) + 1))
  // The reference was computed with z = 1.959964, seven digits.
  expectNear(ranking(rowsOf(table), { level: 0.95 }).leastSignificantDifference, examples.values.iso8587_1988.lsd, 1e-8)
})

test('pairs of an unbalanced plan against the variance counted over every order', () => {
  const [, second] = made.cases.incomplete
  const answer = ranking(rowsOf(second?.ranks ?? []), { level: 0.95 })
  expectAllNear(
    answer.pairs.map(({ p }) => p),
    made.cases.incompletePairs,
    1e-9,
  )
  expect(answer.leastSignificantDifference).toBeNull()
})
