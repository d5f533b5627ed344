/**
 * Made      data/plackett_luce.json: R 4.2.2, own likelihood, equal to survival::coxph; make/ranks-and-choices.R: coxph with one
 *           stratum per taster, standard errors of the centred worths from its covariance.
 * Within    1e-6 for fits
 */
import { expect, test } from 'vitest'
import { plackettLuce } from '@/lib/stats/choice/plackett-luce'
import { expectAllNear, expectNear } from '../support/near'
import { readReferenceTable } from '../support/reference-table'
import published from './data/plackett_luce.json'
import made from './data/ranks-and-choices.json'

function shares(worth: readonly number[]): number[] {
  const total = worth.reduce((sum, x) => sum + Math.exp(x), 0)
  return worth.map((x) => Math.exp(x) / total)
}

function fit(rankings: readonly (readonly string[])[], names: readonly string[]) {
  const answer = plackettLuce(
    rankings.map((ranking) => ranking.map((cup) => names.indexOf(cup))),
    names.length,
  )
  if ('unbeaten' in answer) throw new Error(`no fit: ${answer.unbeaten.join()}`)
  return answer
}

test('seven judges of eight wines', () => {
  const { rankings, worth, logLik } = published.values.wine7
  const answer = fit(Object.values(rankings), Object.keys(worth))
  expectAllNear(shares(answer.worth), Object.values(worth), 1e-6)
  expectNear(answer.logLikelihood, logLik, 1e-8)
})

test('partial rankings', () => {
  const { rankings, worth, logLik } = published.values.example_partial
  const answer = fit(rankings, Object.keys(worth))
  expectAllNear(shares(answer.worth), Object.values(worth), 1e-6)
  expectNear(answer.logLikelihood, logLik, 1e-8)
})

test('twelve rankings of four cups', () => {
  const rows = readReferenceTable('plackett_luce_example.csv')
  const tasters = [...new Set(rows.map(({ taster }) => taster))]
  const rankings = tasters.map((taster) =>
    rows
      .filter((row) => row.taster === taster)
      .sort((a, b) => Number(a.position) - Number(b.position))
      .map(({ cup }) => cup ?? ''),
  )
  const { worth, logLik } = published.values.example12
  const answer = fit(rankings, Object.keys(worth))
  expectAllNear(shares(answer.worth), Object.values(worth), 1e-6)
  expectNear(answer.logLikelihood, logLik, 1e-8)
})

test.each(made.cases.plackettLuce.map((one, i) => ({ ...one, i })))(
  'constructed case $i: worths and standard errors',
  (one) => {
    const answer = plackettLuce(
      one.rankings.map((ranking) => ranking.map((cup) => cup - 1)),
      one.k,
    )
    if ('unbeaten' in answer) throw new Error('no fit')
    expectAllNear(answer.worth, one.worth, 1e-8)
    expectAllNear(answer.se, one.se, 1e-8)
    expectNear(answer.logLikelihood, one.logLikelihood, 1e-10)
  },
)

test('a cup that everybody puts first has no finite worth', () => {
  expect(
    plackettLuce(
      [
        [0, 1, 2],
        [0, 2, 1],
      ],
      3,
    ),
  ).toEqual({ unbeaten: [0] })
})
