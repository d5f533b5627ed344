/**
 * Printed   Conover's seven people and ice creams, each ranks 3 of 7: T₁ = 12, p 0.0619688, F = 8 on 6 and 8 (data/durbin.json).
 * Made      make/ranks-and-choices.R: covariance and exact p from every order of every taster, F from lm on the ranks, R 4.2.2.
 * Within    1e-9
 */
import { expect, test } from 'vitest'
import { durbin } from '@/lib/stats/rank/durbin'
import { ranking } from '@/lib/stats/rank/ranking'
import { expectNear } from '../support/near'
import { readReferenceTable } from '../support/reference-table'
import published from './data/durbin.json'
import made from './data/ranks-and-choices.json'

const rows = readReferenceTable('icecream_bib_ranks.csv').map(({ taster = '', cup = '', score }) => ({
  taster,
  cup,
  rank: Number(score),
}))

test('ice cream: rank sums, both statistics, and no worth for the variety always first', () => {
  const { icecream } = published.values
  const answer = ranking(rows, { level: 0.95 })
  for (const { cup, rankSum } of answer.cups)
    expect(rankSum).toBe(Object.entries(icecream.rank_sums).find(([name]) => name === cup)?.[1])
  expect(answer.friedman).toBeNull()
  expectNear(answer.durbin?.chiSquared, icecream.chi2, 1e-9)
  expect(answer.durbin?.df).toBe(6)
  expectNear(answer.durbin?.p, icecream.p_chi2, 1e-9)
  expectNear(answer.durbin?.F, icecream.F, 1e-9)
  expect(answer.durbin?.df2).toBe(icecream.df2)
  expectNear(answer.durbin?.pF, icecream.p_F, 1e-9)
  expect(answer.worth).toBeNull()
  expect(answer.notes.join(' ')).toContain('4')
})

test.each(made.cases.incomplete.map((one, i) => ({ ...one, i })))(
  'incomplete case $i agrees with counting in R',
  (one) => {
    const answer = durbin(one.ranks)
    expect(answer.counted).toBe(true)
    expect(answer.balanced).toBe(false)
    expectNear(answer.chiSquared, one.chiSquared, 1e-9)
    expect(answer.df).toBe(one.df)
    expectNear(answer.p, one.p, 1e-9)
    expectNear(answer.F, one.F, 1e-9)
    expect([answer.df1, answer.df2]).toEqual([one.df1, one.df2])
    expectNear(answer.pF, one.pF, 1e-9)
    expectNear(answer.pExact, one.pExact, 1e-12)
  },
)
