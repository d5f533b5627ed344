/**
 * Made      data/dose_optimum.json: sweetness_doses.csv (invented), lme4 1.1.31 with lmerTest 3.1.3, Fieller's limits, R 4.2.2;
 *           ToothGrowth VC, where Fieller's set is not bounded; make/ranks-and-choices.R: lmer on constructed panels.
 * Within    1e-6 for what passes through lme4's optimizer, 1e-3 for Satterthwaite's degrees of freedom where unbalanced
 */
import { expect, test } from 'vitest'
import { dose } from '@/lib/stats/dose/dose'
import { fiellerInterval } from '@/lib/stats/dose/fieller'
import { expectAllNear, expectNear } from '../support/near'
import { readReferenceTable } from '../support/reference-table'
import published from './data/dose_optimum.json'
import made from './data/ranks-and-choices.json'

test('the sweetness panel: coefficients, optimum, Fieller by the model, lack of fit', () => {
  const rows = readReferenceTable('sweetness_doses.csv').map((row) => ({
    taster: row.taster ?? '',
    dose: Number(row.dose),
    score: Number(row.score),
  }))
  const { coefficients, optimum, lackOfFit, shape } = dose(rows, { level: 0.95 })
  const { sweet_mixed, fixed_kr, sweet_lack_of_fit } = published.values
  expectAllNear(
    coefficients.map(({ estimate }) => estimate),
    sweet_mixed.b,
    1e-9,
  )
  expectAllNear(
    coefficients.map(({ se }) => se),
    sweet_mixed.se_b,
    1e-7,
  )
  expectNear(coefficients[2]?.df, fixed_kr[2]?.df, 1e-6)
  expectNear(optimum?.dose, sweet_mixed.optimum, 1e-9)
  expectNear(optimum?.score, sweet_mixed.height, 1e-9)
  expectAllNear(optimum?.intervalModel, sweet_mixed.fieller.limits, 1e-6)
  expect(optimum?.intervalBasis).toBe('tasters')
  expect(optimum?.inside).toBe(true)
  expect(shape).toBe('peak')
  expectNear(lackOfFit?.F, sweet_lack_of_fit.F, 1e-6)
  expect(lackOfFit?.df1).toBe(sweet_lack_of_fit.df[0])
  expectNear(lackOfFit?.df2, sweet_lack_of_fit.df[1], 1e-6)
  expectNear(lackOfFit?.p, sweet_lack_of_fit.p, 1e-6)
})

test.each(made.cases.dose.map((one, i) => ({ ...one, i })))('constructed panel $i agrees with lmer', (one) => {
  const { coefficients, optimum, lackOfFit, shape } = dose(one.rows, { level: 0.95 })
  expectAllNear(
    coefficients.map(({ estimate }) => estimate),
    one.coefficients.estimate,
    1e-6,
  )
  expectAllNear(
    coefficients.map(({ se }) => se),
    one.coefficients.se,
    1e-5,
  )
  expectAllNear(
    coefficients.map(({ df }) => df),
    one.coefficients.df,
    1e-3,
  )
  expectAllNear(
    coefficients.map(({ p }) => p),
    one.coefficients.p,
    1e-5,
  )
  const peak = (one.coefficients.p[2] ?? 1) <= 0.05 && (one.coefficients.estimate[2] ?? 0) < 0
  expect(shape === 'peak').toBe(peak)
  if (peak) {
    expectNear(optimum?.dose, one.optimum, 1e-6)
    expectAllNear(optimum?.intervalModel, one.intervalModel, 1e-4)
    const own = 'interval' in one && Array.isArray(one.interval) && one.interval.length === 2 ? one.interval : null
    expect(optimum?.intervalBasis).toBe(own ? 'tasters' : 'model')
    expectAllNear(optimum?.interval, own ?? one.intervalModel, 1e-4)
  } else expect(optimum).toBeNull()
  if ('lackOfFit' in one && one.lackOfFit && 'F' in one.lackOfFit) {
    expectNear(lackOfFit?.F, one.lackOfFit.F, 1e-5)
    expect(lackOfFit?.df1).toBe(one.lackOfFit.df1)
    expectNear(lackOfFit?.df2, one.lackOfFit.df2, 1e-3)
    expectNear(lackOfFit?.p, one.lackOfFit.p, 1e-5)
  } else expect(lackOfFit).toBeNull()
})

test('a set that is not bounded is no interval', () => {
  const { b, se_b, fieller } = published.values.toothgrowth_VC
  expect(fieller.kind).toBe('complement')
  // t(0.975, 27) from R: 2.05183051648028; only b2 and its error decide whether the set is bounded.
  const limits = fiellerInterval(
    { b1: b[1] ?? 0, b2: b[2] ?? 0, v11: (se_b[1] ?? 0) ** 2, v12: 0, v22: (se_b[2] ?? 0) ** 2 },
    2.05183051648028,
  )
  expect(limits).toBeNull()
})
