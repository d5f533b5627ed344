import { expect, test } from 'vitest'
import { cupPairs } from '@/lib/stats/cup-pairs'
import { likingModel } from '@/lib/stats/liking-model'
import { scoreTable } from '@/lib/stats/score-table'
import { tasterMeans } from '@/lib/stats/taster-means'
import { smallPanel } from '../../support/small-panel'

const plain = { position: false, carryOver: false }

test('a full panel is judged on paired differences, its pairs in label order', () => {
  const { table, cupMeans, residual } = smallPanel()
  const pairs = cupPairs(
    table.cups,
    likingModel(table, 'none', 'satterthwaite', plain),
    tasterMeans(table),
    () => 0,
    table.grain,
    0.95,
  )
  expect(pairs.map(({ a, b }) => `${a} ${b}`)).toEqual(['c0 c1', 'c0 c2', 'c1 c2'])
  expect(pairs.every(({ verdict }) => verdict.basis === 'paired')).toBe(true)
  const [first] = pairs
  expect(first?.difference).toBeCloseTo((cupMeans[0] ?? 0) - (cupMeans[1] ?? 0), 10)
  expect(first?.effectSize).toBeCloseTo(((cupMeans[0] ?? 0) - (cupMeans[1] ?? 0)) / Math.sqrt(residual), 8)
  // differences −1, −2, −2, −3
  expect(first).toMatchObject({ preferA: 0, preferB: 4, tied: 0, shareA: { estimate: 0 } })
  expect(first?.signedRank).toMatchObject({ statistic: 0, exact: true })
})

test('with a gap verdicts rest on the model, Holm over its pairs', () => {
  const table = scoreTable(smallPanel().rows.slice(1), false)
  const pairs = cupPairs(
    table.cups,
    likingModel(table, 'none', 'satterthwaite', plain),
    tasterMeans(table),
    () => 0,
    table.grain,
    0.95,
  )
  expect(pairs.every(({ verdict, pHolm }) => verdict.basis === 'model' && verdict.pHolm === pHolm)).toBe(true)
})

test('without a model only plain differences are left', () => {
  const { table } = smallPanel()
  const [first] = cupPairs(table.cups, null, tasterMeans(table), () => -2, table.grain, 0.95)
  expect(first).toMatchObject({ difference: -2, se: null, p: null, pTukey: null, effectSize: null })
})
