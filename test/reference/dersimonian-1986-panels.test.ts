/**
 * Printed   thirteen trials of Colditz et al. (1994), as analysed by metafor: REML τ² 0.313, I² 92.2, Q 152.23.
 * Made      data/meta_analysis.json and make/ranks-and-choices.R: metafor 3.8.1 (DL, REML, test "adhoc": factor never below 1), R 4.2.2.
 * Within    1e-9 for DerSimonian and Laird; REML 1e-5, the reach of metafor's default stopping rule in the checked-in file
 */
import { expect, test } from 'vitest'
import { repeats } from '@/lib/stats/over-panels/repeats'
import { expectAllNear, expectNear } from '../support/near'
import published from './data/meta_analysis.json'
import made from './data/ranks-and-choices.json'

const { bcg, panels5, panels3_homogeneous, panels4_heterogeneous } = published.values

test.each(Object.entries({ bcg, panels5, panels3_homogeneous, panels4_heterogeneous }))(
  '%s',
  (_, { y, v, by_hand_DL, REML }) => {
    const rows = y.map((difference, i) => ({ study: `${i}`, difference, se: Math.sqrt(v[i] ?? 0) }))
    const answer = repeats(rows, { level: 0.95, tau: 'dersimonian-laird' })
    expectNear(answer.estimate, by_hand_DL.mean, 1e-9)
    expectNear(answer.se, by_hand_DL.se, 1e-9)
    expectAllNear(answer.interval, by_hand_DL.ci_z, 1e-9)
    expectNear(answer.tauSquared, by_hand_DL.tau2, 1e-9)
    expectNear(answer.Q, by_hand_DL.Q, 1e-9)
    expectNear(answer.p, by_hand_DL.Q_p, 1e-9)
    expectNear(answer.iSquared, by_hand_DL.I2, 1e-9)
    expectAllNear(answer.intervalHartungKnapp, by_hand_DL.hk_ci_never_narrower, 1e-9)
    expectAllNear(answer.prediction, by_hand_DL.prediction_t_k2, 1e-9)
    const likely = repeats(rows, { level: 0.95, tau: 'reml' })
    expectNear(likely.tauSquared, REML.tau2, 1e-5)
    expectNear(likely.estimate, REML.mean, 1e-5)
    expectAllNear(likely.interval, REML.ci, 1e-5)
  },
)

test('the printed figures of the thirteen trials', () => {
  const rows = bcg.y.map((difference, i) => ({ study: `${i}`, difference, se: Math.sqrt(bcg.v[i] ?? 0) }))
  const { tauSquared, Q } = repeats(rows, { level: 0.95, tau: 'reml' })
  expect(tauSquared.toFixed(3)).toBe('0.313')
  expect(Q.toFixed(2)).toBe('152.23')
})

test.each(made.cases.repeats.map((one, i) => ({ ...one, i })))(
  'constructed panels $i agree with metafor',
  ({ y, se, level, DL, REML }) => {
    const rows = y.map((difference, i) => ({ study: `${i}`, difference, se: se[i] ?? 0 }))
    for (const [tau, reference, within] of [
      ['dersimonian-laird', DL, 1e-9],
      ['reml', REML, 1e-6],
    ] as const) {
      const answer = repeats(rows, { level, tau })
      expectNear(answer.tauSquared, reference.tauSquared, within)
      expectNear(answer.estimate, reference.estimate, within)
      expectNear(answer.se, reference.se, within)
      expectAllNear(answer.interval, reference.interval, within)
      expectNear(answer.Q, reference.Q, 1e-9)
      expectNear(answer.p, reference.p, 1e-9)
      expectAllNear(answer.intervalHartungKnapp, reference.knha, within)
      expectAllNear(answer.prediction, reference.prediction, within)
    }
  },
)
