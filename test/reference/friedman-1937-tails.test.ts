/**
 * Printed   Friedman (1937): exact tails and critical values, recomputed by convolution in R 4.2.2 (data/friedman_exact.json);
 *           Hollander & Wolfe, rounding times (R help of friedman.test prints 11.143, p 0.003805); ISO 8587:1988 annex A, rank sums
 *           17 31 32 23 17 of 8 tasters, F = 10.60.
 * Made      make/ranks-and-choices.R: friedman.test, and every order of every taster counted for the exact p with ties.
 * Within    1e-9; the printed ones to their last digit.
 */
import { expect, test } from 'vitest'
import { friedman, friedmanExact } from '@/lib/stats/rank/friedman'
import { permutedColumnTail } from '@/lib/stats/permuted-columns'
import { expectNear } from '../support/near'
import { readReferenceTable } from '../support/reference-table'
import exact from './data/friedman_exact.json'
import examples from './data/friedman_examples.json'
import made from './data/ranks-and-choices.json'

/** Hollander & Wolfe, Table 7.1: seconds to round first base, 22 players, three ways. */
const ROUNDING = [
  [5.4, 5.5, 5.55],
  [5.85, 5.7, 5.75],
  [5.2, 5.6, 5.5],
  [5.55, 5.5, 5.4],
  [5.9, 5.85, 5.7],
  [5.45, 5.55, 5.6],
  [5.4, 5.4, 5.35],
  [5.45, 5.5, 5.35],
  [5.25, 5.15, 5.0],
  [5.85, 5.8, 5.7],
  [5.25, 5.2, 5.1],
  [5.65, 5.55, 5.45],
  [5.6, 5.35, 5.45],
  [5.05, 5.0, 4.95],
  [5.5, 5.5, 5.4],
  [5.45, 5.55, 5.5],
  [5.55, 5.55, 5.35],
  [5.45, 5.5, 5.55],
  [5.5, 5.45, 5.25],
  [5.65, 5.6, 5.4],
  [5.7, 5.65, 5.55],
  [6.3, 6.3, 6.25],
]

test('the rounding times give the statistic R prints, and the exact p of its ties', () => {
  const { chiSquared, df, p, kendallW } = friedman(ROUNDING)
  expect(chiSquared?.toFixed(3)).toBe('11.143')
  expect(p?.toFixed(6)).toBe('0.003805')
  expect(df).toBe(2)
  expectNear(kendallW, examples.values.rounding.kendall_W, 1e-12)
  expectNear(friedmanExact(ROUNDING), examples.values.rounding.exact_p, 1e-12)
})

test('wine bottles with many ties agree with R', () => {
  const rows = readReferenceTable('wine.csv').filter((row) => row.attribute === 'bitter5')
  const tasters = [...new Set(rows.map((row) => row.taster))]
  const scores = tasters.map((taster) => rows.filter((row) => row.taster === taster).map((row) => Number(row.score)))
  const { chiSquared, p, kendallW } = friedman(scores)
  const { chi2, p: reference, kendall_W } = examples.values.wine_8bottles
  expectNear(chiSquared, chi2, 1e-12)
  expectNear(p, reference, 1e-12)
  expectNear(kendallW, kendall_W, 1e-12)
})

/** Rank sums alone decide without ties: any tasters with those sums will do, so the tail is asked for at the sums. */
test('every tail of 2 to 5 tasters and 3 or 4 cups is Friedman’s', () => {
  const listed = exact.values.tail_3_4
  expect(listed.length).toBeGreaterThan(50)
  for (const [n, k] of [
    [2, 3],
    [3, 3],
    [4, 3],
    [5, 3],
    [2, 4],
    [3, 4],
    [4, 4],
  ] as const) {
    const tails = new Map(listed.filter((row) => row.n === n && row.k === k).map((row) => [row.chi.toFixed(6), row.p]))
    if (tails.size === 0) continue
    const rows = everyOrder(k)
    const seen = new Set<string>()
    const visit = (chosen: number[][]): void => {
      if (chosen.length === n) {
        const chi = (friedman(chosen).chiSquared ?? NaN).toFixed(6)
        if (seen.has(chi)) return
        seen.add(chi)
        expectNear(friedmanExact(chosen), tails.get(chi), 1e-12)
        return
      }
      if (seen.size < tails.size) for (const row of rows) visit([...chosen, row])
    }
    visit([rows[0] ?? []])
    expect(seen.size).toBe(tails.size)
  }
})

function everyOrder(k: number): number[][] {
  if (k === 0) return [[]]
  return everyOrder(k - 1).flatMap((order) =>
    Array.from({ length: k }, (_, at) => [...order.slice(0, at), k, ...order.slice(at)]),
  )
}

test.each(made.cases.friedman.map((one, i) => ({ ...one, i })))(
  'constructed case $i agrees with friedman.test',
  (one) => {
    const { chiSquared, df, p } = friedman(one.scores)
    expectNear(chiSquared, one.chiSquared, 1e-12)
    expect(df).toBe(one.df)
    expectNear(p, one.p, 1e-12)
    if (one.pExact !== null) expectNear(friedmanExact(one.scores), one.pExact, 1e-12)
  },
)

test('five cups and twelve tasters stay within reach', () => {
  const scores = Array.from({ length: 12 }, (_, i) => [0, 1, 2, 3, 4].map((j) => (j * (i + 2)) % 5))
  expect(friedmanExact(scores)).not.toBeNull()
})

test('what would take too long is null, not a guess', () => {
  const scores = Array.from({ length: 40 }, (_, i) => Array.from({ length: 8 }, (_x, j) => (j * (2 * i + 1)) % 8))
  expect(friedmanExact(scores)).toBeNull()
  expect(permutedColumnTail(Array.from({ length: 9 }, () => Array.from({ length: 20 }, (_, j) => j)))).toBeNull()
})
