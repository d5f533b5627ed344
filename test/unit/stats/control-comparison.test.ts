import { expect, test } from 'vitest'
import { controlComparison } from '@/lib/stats/control-comparison'
import { cupPairs } from '@/lib/stats/cup-pairs'
import { likingModel } from '@/lib/stats/liking-model'
import { cupDifference } from '@/lib/stats/marginal-mean'
import { tasterMeans } from '@/lib/stats/taster-means'
import { smallPanel } from '../../support/small-panel'

const { table, cupMeans } = smallPanel()
const model = likingModel(table, 'none', 'satterthwaite', { position: false, carryOver: false })
const pairs = cupPairs(table.cups, model, tasterMeans(table), () => 0, table.grain, 0.95)
const against = (control: number) =>
  controlComparison(table.cups, control, pairs, model.effects, (cup) => cupDifference(model.design, cup, control), 0.95)

test('each cup less the control, whichever of them comes first', () => {
  const got = against(1)
  expect(got.map(({ cup }) => cup)).toEqual(['c0', 'c2'])
  got.forEach(({ difference }, i) => {
    expect(difference).toBeCloseTo((cupMeans[2 * i] ?? 0) - (cupMeans[1] ?? 0), 10)
  })
  expect(got.every(({ difference, t }) => Math.sign(difference) === Math.sign(t ?? 0))).toBe(true)
})

test('two comparisons cost more than one and at most twice as much', () => {
  for (const { p, pDunnett } of against(0)) {
    expect(pDunnett).toBeGreaterThanOrEqual(p ?? 1)
    expect(pDunnett).toBeLessThanOrEqual(2 * (p ?? 0) + 1e-12)
  }
})

test('Holm counts only the comparisons with the control', () => {
  const got = against(0)
  const ps = [pairs[0], pairs[1]].map((pair) => pair?.paired.p ?? 1)
  const [small, large] = [Math.min(...ps), Math.max(...ps)]
  expect(Math.min(...got.map(({ verdict }) => verdict.pHolm ?? 1))).toBeCloseTo(2 * small, 12)
  expect(Math.max(...got.map(({ verdict }) => verdict.pHolm ?? 1))).toBeCloseTo(Math.max(2 * small, large), 12)
})

test('without a model nothing is said beyond the difference', () => {
  const bare = cupPairs(table.cups, null, tasterMeans(table), () => -1, table.grain, 0.95)
  const got = controlComparison(table.cups, 0, bare, null, () => new Float64Array(0), 0.95)
  expect(got[0]).toMatchObject({ difference: 1, pDunnett: null, intervalDunnett: null })
})
