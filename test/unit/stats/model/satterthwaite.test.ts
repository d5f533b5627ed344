import { expect, test } from 'vitest'
import { satterthwaite } from '@/lib/stats/model/satterthwaite'
import { cupDifference, factorContrasts } from '@/lib/stats/liking/marginal-mean'
import { fitMixedModel } from '@/lib/stats/model/mixed-model'
import { likingModel } from '@/lib/stats/liking/liking-model'
import { smallPanel } from '../../../support/small-panel'

const panel = smallPanel()
const fit = fitMixedModel(panel.design, false, panel.table.grain)
const { gram } = likingModel(panel.table, 'none', 'satterthwaite', { position: false, carryOver: false })

test('in a full panel F and its degrees of freedom are those of the analysis of variance', () => {
  if (fit.outcome !== 'fitted') throw new Error(fit.outcome)
  const got = satterthwaite(fit).test(factorContrasts(panel.design, gram, 'cup'))
  expect(got.F).toBeCloseTo(panel.F, 8)
  expect(got.df1).toBe(2)
  expect(got.df2).toBeCloseTo(panel.df2, 6)
})

test('in a full panel a difference of cups has the residual degrees of freedom and error', () => {
  if (fit.outcome !== 'fitted') throw new Error(fit.outcome)
  const effects = satterthwaite(fit)
  const contrast = cupDifference(panel.design, 0, 2)
  expect(effects.df(contrast)).toBeCloseTo(panel.df2, 6)
  const variance = contrast.reduce(
    (sum, left, i) =>
      sum + contrast.reduce((row, right, j) => row + left * right * (effects.covariance[i * 3 + j] ?? 0), 0),
    0,
  )
  expect(variance).toBeCloseTo((2 * panel.residual) / 4, 8)
})

test('one contrast alone is its squared t', () => {
  if (fit.outcome !== 'fitted') throw new Error(fit.outcome)
  const got = satterthwaite(fit).test([cupDifference(panel.design, 0, 1)])
  const difference = (panel.cupMeans[0] ?? 0) - (panel.cupMeans[1] ?? 0)
  expect(got.F).toBeCloseTo(difference ** 2 / ((2 * panel.residual) / 4), 8)
})
