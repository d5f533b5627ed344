import { expect, test } from 'vitest'
import { componentInverse, fitMixedModel } from '@/lib/stats/model/mixed-model'
import { scoreDesign } from '@/lib/stats/liking/score-design'
import { scoreTable } from '@/lib/stats/liking/score-table'
import { smallPanel } from '../../../support/small-panel'

const plain = { position: false, carryOver: false }
const fitOf = (scores: readonly (readonly number[])[], nested = false) => {
  const rows = scores.flatMap((row, t) => row.map((score, c) => ({ taster: `t${t}`, cup: `c${c}`, score })))
  const table = scoreTable(rows, false)
  return fitMixedModel(scoreDesign(table, plain), nested, table.grain)
}

test('a full panel has the variances of its analysis of variance', () => {
  const { design, table, taster, residual } = smallPanel()
  const fit = fitMixedModel(design, false, table.grain)
  expect(fit.outcome).toBe('fitted')
  if (fit.outcome !== 'fitted') return
  expect(fit.variances[1]).toBeCloseTo(taster, 10)
  expect(fit.variances[0]).toBeCloseTo(residual, 10)
  expect(fit.singular).toBe(false)
})

test('a variance whose deviance only rises from zero is exactly zero', () => {
  const fit = fitOf([
    [1, 9],
    [9, 2],
    [2, 8],
    [8, 1],
  ])
  expect(fit.outcome === 'fitted' && fit.singular && fit.variances[1] === 0).toBe(true)
})

test('at the bottom the slopes of the free variances are zero', () => {
  const { design, table } = smallPanel()
  const fit = fitMixedModel(design, false, table.grain)
  if (fit.outcome === 'fitted') for (const slope of fit.curve.gradient) expect(Math.abs(slope)).toBeLessThan(1e-9)
})

test('exact scores and trees of scores are told from a fit', () => {
  expect(
    fitOf([
      [1, 2],
      [3, 4],
      [7, 8],
    ]),
  ).toMatchObject({ outcome: 'no residual' })
  expect(fitOf([[1, 2]])).toMatchObject({ outcome: 'saturated', taster: null })
})

test('an inverse of kept components ignores the others', () => {
  const matrix = [
    [2, 9],
    [9, -1],
  ]
  expect(componentInverse(matrix, [0])?.[0]).toBeCloseTo(0.5, 12)
  expect(componentInverse(matrix, [0, 1])).toBeNull()
})
