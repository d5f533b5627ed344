/**
 * Printed   citations between four journals, Stigler (1994): −2.949072, −0.479570, 0.268954 against Biometrika, as printed in
 *           the vignette of BradleyTerry2 1.1.2.
 * Made      data/bradley_terry.json: flavour strength, Springall (1973), half wins and Davidson's model, R 4.2.2, BradleyTerry2;
 *           make/ranks-and-choices.R: glm (binomial; for Davidson the log-linear form with an effect per pair).
 * Within    1e-6 for fits
 */
import { expect, test } from 'vitest'
import { bradleyTerry, type PairCount } from '@/lib/stats/choice/bradley-terry'
import { expectAllNear, expectNear } from '../support/near'
import { readReferenceTable } from '../support/reference-table'
import published from './data/bradley_terry.json'
import made from './data/ranks-and-choices.json'

function fit(pairs: readonly PairCount[], k: number) {
  const answer = bradleyTerry(pairs, k)
  if ('unbeaten' in answer) throw new Error(`no fit: ${answer.unbeaten.join()}`)
  return answer
}

const springall = readReferenceTable('springall_pairs.csv').map((row) => ({
  a: Number(row.first) - 1,
  b: Number(row.second) - 1,
  preferA: Number(row.wins_first),
  preferB: Number(row.wins_second),
  none: Number(row.ties),
}))

test('flavour strength with ties as half wins', () => {
  const halves = springall.map((row) => ({
    ...row,
    preferA: row.preferA + row.none / 2,
    preferB: row.preferB + row.none / 2,
    none: 0,
  }))
  const { worth, deviance, df } = fit(halves, 9)
  const { ability, deviance: reference, df: referenceDf } = published.values.springall_half_ties
  expectAllNear(
    worth.map((x) => x - (worth[0] ?? 0)),
    Object.values(ability),
    1e-6,
  )
  expectNear(deviance, reference, 1e-8)
  expect(df).toBe(referenceDf)
})

test('flavour strength by Davidson’s model', () => {
  const { worth, nu, logLikelihood } = fit(springall, 9)
  const { ability, nu: reference, logLik } = published.values.springall_davidson
  expectAllNear(
    worth.map((x) => x - (worth[0] ?? 0)),
    ability,
    1e-5,
  )
  expectNear(nu, reference, 1e-5)
  // R's log-likelihood counts the same answers; its constant is 0.
  expectNear(logLikelihood, logLik, 1e-8)
})

test('citations as printed', () => {
  // Biometrika, Communications, JASA, Series B: times one cites the other, the cited being preferred
  const cited = [
    [0, 730, 498, 221],
    [33, 0, 68, 17],
    [320, 813, 0, 142],
    [284, 276, 325, 0],
  ]
  const pairs = [0, 1, 2, 3].flatMap((a) =>
    [0, 1, 2, 3].flatMap((b) =>
      a < b ? [{ a, b, preferA: cited[a]?.[b] ?? 0, preferB: cited[b]?.[a] ?? 0, none: 0 }] : [],
    ),
  )
  const { worth, deviance, df } = fit(pairs, 4)
  const { coef, deviance: reference, df: referenceDf } = published.values.citations
  expectAllNear(
    worth.slice(1).map((x) => x - (worth[0] ?? 0)),
    coef.map(({ Estimate }) => Estimate),
    1e-7,
  )
  expect((worth[1] ?? 0) - (worth[0] ?? 0)).toBeCloseTo(-2.949072, 6)
  expectNear(deviance, reference, 1e-8)
  expect(df).toBe(referenceDf)
})

test.each(made.cases.bradleyTerry.map((one, i) => ({ ...one, i })))(
  'constructed case $i: worths, errors, fit',
  (one) => {
    const pairs = one.pairs.map(([a = 0, b = 0, preferA = 0, preferB = 0, none = 0]) => ({
      a: a - 1,
      b: b - 1,
      preferA,
      preferB,
      none,
    }))
    const answer = fit(pairs, one.k)
    expectAllNear(answer.worth, one.worth, 1e-8)
    expectAllNear(answer.se, one.se, 1e-7)
    expectNear(answer.nu, one.nu, 1e-8)
    expectNear(answer.deviance, one.deviance, 1e-9)
    expect(answer.df).toBe(one.df)
    // A deviance of 0 is known to a rounding error, of which p on 1 df takes the root.
    expectNear(answer.p, one.p, 1e-7)
  },
)
