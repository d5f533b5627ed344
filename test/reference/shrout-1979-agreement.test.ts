/**
 * Printed   Shrout & Fleiss (1979), Psychological Bulletin 86(2), tables 2 to 4: six targets, four judges; 0.17, 0.29, 0.71, 0.44,
 *           0.62, 0.91 (attribution from memory; reproduced by psych 2.2.9 in data/agreement.json, with F, p and intervals).
 * Made      make/ranks-and-choices.R: mean squares of aov, intervals through qf, cor, one-way F, R 4.2.2.
 * Within    1e-9
 */
import { expect, test } from 'vitest'
import { agreement, icc } from '@/lib/stats/liking/agreement'
import { expectAllNear, expectNear } from '../support/near'
import { readReferenceTable } from '../support/reference-table'
import published from './data/agreement.json'
import made from './data/ranks-and-choices.json'

const transpose = (rows: readonly (readonly number[])[]): number[][] =>
  (rows[0] ?? []).map((_, j) => rows.map((row) => row[j] ?? 0))

test('the six coefficients of Shrout and Fleiss with F, p and intervals', () => {
  const { data, psych } = published.values.shrout_fleiss
  const six = icc(transpose(data), 0.95)
  expect(six.map(({ type }) => type)).toEqual(['ICC(1,1)', 'ICC(2,1)', 'ICC(3,1)', 'ICC(1,k)', 'ICC(2,k)', 'ICC(3,k)'])
  expect(six.map(({ estimate }) => estimate?.toFixed(2))).toEqual(['0.17', '0.29', '0.71', '0.44', '0.62', '0.91'])
  psych.forEach((row, i) => {
    expectNear(six[i]?.estimate, row.ICC, 1e-9)
    expectNear(six[i]?.F, row.F, 1e-9)
    expect([six[i]?.df1, six[i]?.df2]).toEqual([row.df1, row.df2])
    expectNear(six[i]?.p, row.p, 1e-9)
    expectAllNear(six[i]?.interval, [row['lower bound'], row['upper bound']], 1e-9)
  })
})

test('nine judges of eight wines', () => {
  const rows = readReferenceTable('wine.csv').filter((row) => row.attribute === 'bitter5')
  const answer = agreement(
    rows.map(({ taster = '', cup = '', score }) => ({ taster, cup, score: Number(score) })),
    { level: 0.95 },
  )
  const { wine_bottles_icc: reference, W } = published.values
  const { ICC11, ICC21, ICC31, ICC1k, ICC2k, ICC3k } = reference
  expectAllNear(
    answer.icc.map(({ estimate }) => estimate),
    [ICC11, ICC21, ICC31, ICC1k, ICC2k, ICC3k],
    1e-9,
  )
  expectNear(answer.kendallW, W.wine.W, 1e-12)
})

test.each(made.cases.agreement.map((one, i) => ({ ...one, i })))('constructed case $i agrees with aov', (one) => {
  const rows = one.scores.flatMap((row, i) => row.map((score, j) => ({ taster: `t${i}`, cup: `c${j}`, score })))
  const answer = agreement(rows, { level: one.level })
  expectAllNear(
    answer.icc.map(({ estimate }) => estimate),
    one.estimate,
    1e-9,
  )
  expectAllNear(
    answer.icc.map(({ interval }) => interval?.[0] ?? null),
    one.low,
    1e-9,
  )
  expectAllNear(
    answer.icc.map(({ interval }) => interval?.[1] ?? null),
    one.high,
    1e-9,
  )
  expectNear(answer.icc[0]?.p, one.p[0], 1e-9)
  expectNear(answer.icc[2]?.p, one.p[1], 1e-9)
  expectNear(answer.kendallW, one.kendallW, 1e-12)
  expectAllNear(
    answer.tasters.map((row) => row.correlationWithOthers),
    one.correlation,
    1e-9,
  )
  expectAllNear(
    answer.tasters.map(({ sd }) => sd),
    one.sd,
    1e-9,
  )
})

test('a taster’s repeats give the F of a one-way analysis', () => {
  const { scores, cup, F } = made.cases.repeatsF
  const answer = agreement(
    scores.map((score, i) => ({ taster: 'only', cup: `${cup[i]}`, score })),
    { level: 0.95 },
  )
  expectNear(answer.tasters[0]?.F, F, 1e-9)
})

test('a taster who always gives the same score has no F, no correlation and no spread', () => {
  const rows = ['a', 'b', 'c'].flatMap((cup) => [1, 2].map(() => ({ taster: 'flat', cup, score: 5 })))
  expect(agreement(rows, { level: 0.95 }).tasters).toEqual([
    { taster: 'flat', correlationWithOthers: null, sd: 0, F: null },
  ])
})
