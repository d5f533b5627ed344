/**
 * Printed   Cochran (1950), Biometrika 37: 69 specimens on four media, totals 6 10 7 10, Q = 8.05 (from memory, reproduced).
 * Made      data/cochran_mcnemar.json, R 4.2.2: the 12 × 4 table of Dataplot's manual, cata_example.csv; exact p by counting;
 *           make/ranks-and-choices.R: every placing of each taster's ticks, binom.test, p.adjust.
 * Within    1e-9
 */
import { expect, test } from 'vitest'
import { check } from '@/lib/stats/choice/check-all'
import { cochran } from '@/lib/stats/choice/cochran'
import { expectAllNear, expectNear } from '../support/near'
import { readReferenceTable } from '../support/reference-table'
import published from './data/cochran_mcnemar.json'
import made from './data/ranks-and-choices.json'

const times = (n: number, row: readonly number[]): number[][] => Array.from({ length: n }, () => [...row])

test('Cochran’s own example', () => {
  // Media A B C D: growth on all four 4 times, on A B D never …; rows as in the paper: 4 × 1111, 2 × 1101, 3 × 0111, 1 × 0101, 59 × 0000
  const specimens = [
    ...times(4, [1, 1, 1, 1]),
    ...times(2, [1, 1, 0, 1]),
    ...times(3, [0, 1, 1, 1]),
    ...times(1, [0, 1, 0, 1]),
    ...times(59, [0, 0, 0, 0]),
  ]
  const { Q, df, p, exact_p, totals } = published.values.cochran1950
  expect([0, 1, 2, 3].map((j) => specimens.reduce((sum, row) => sum + (row[j] ?? 0), 0))).toEqual(totals)
  const answer = cochran(specimens)
  expectNear(answer.Q, Q, 1e-12)
  expect(answer.df).toBe(df)
  expectNear(answer.p, p, 1e-12)
  expectNear(answer.pExact, exact_p, 1e-12)
})

test('the twelve by four table', () => {
  const { data, res } = published.values.twelve_by_four
  const answer = cochran(data)
  expectNear(answer.Q, res.Q, 1e-12)
  expectNear(answer.p, res.p, 1e-12)
  expectNear(answer.pExact, res.exact_p, 1e-12)
})

test('thirty tasters tick a word for four cups: Q, exact p, McNemar, Holm', () => {
  const rows = readReferenceTable('cata_example.csv').flatMap(({ taster = '', ...ticks }) =>
    Object.entries(ticks).map(([cup, tick]) => ({ taster, cup, term: 'malty', checked: tick === '1' })),
  )
  const [term] = check(rows, { level: 0.95 }).terms
  const { res, pairs } = published.values.cata_example
  expectNear(term?.Q, res.Q, 1e-12)
  expectNear(term?.p, res.p, 1e-12)
  expectNear(term?.pExact, res.exact_p, 1e-12)
  expect(term?.shares).toEqual({ A: 19 / 30, B: 9 / 30, C: 9 / 30, D: 20 / 30 })
  expectAllNear(
    term?.pairs.map(({ pMcNemar }) => pMcNemar),
    pairs.map(({ p_exact }) => p_exact),
    1e-12,
  )
  expectAllNear(
    term?.pairs.map(({ pHolm }) => pHolm),
    pairs.map(({ p_exact_holm }) => p_exact_holm),
    1e-12,
  )
})

test('the constructed table agrees with counting in R', () => {
  const { ticks, Q, p, pExact, pMcNemar, pHolm } = made.cases.check
  const rows = ticks.flatMap((row, i) =>
    row.map((tick, j) => ({ taster: `t${i}`, cup: `c${j}`, term: 'smoky', checked: tick === 1 })),
  )
  const [term] = check(rows, { level: 0.95 }).terms
  expectNear(term?.Q, Q, 1e-12)
  expectNear(term?.p, p, 1e-12)
  expectNear(term?.pExact, pExact, 1e-12)
  expectAllNear(
    term?.pairs.map((pair) => pair.pMcNemar),
    pMcNemar,
    1e-12,
  )
  expectAllNear(
    term?.pairs.map((pair) => pair.pHolm),
    pHolm,
    1e-12,
  )
})
