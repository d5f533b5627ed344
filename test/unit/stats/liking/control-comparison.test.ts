import { expect, test } from 'vitest'
import { controlComparison } from '@/lib/stats/liking/control-comparison'
import { modelPairs } from '@/lib/stats/liking/cup-pairs'
import { likingReading } from '@/lib/stats/liking/liking-reading'
import { cupDifference } from '@/lib/stats/liking/marginal-mean'
import { smallPanel } from '../../../support/small-panel'

const { rows, cupMeans } = smallPanel()
const reading = likingReading(rows, {})
const { table, model } = reading
if (!model) throw new Error('a panel of four tasters has a model')
const pairs = modelPairs(reading, 0.95)
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

test('without a model nothing is said beyond the difference', () => {
  const bare = [{ ...pairs[0], a: 'c0', b: 'c1', difference: -1, se: null, df: null, t: null, p: null }] as typeof pairs
  const got = controlComparison(table.cups, 0, bare, null, () => new Float64Array(0), 0.95)
  expect(got[0]).toMatchObject({ difference: 1, pDunnett: null, intervalDunnett: null })
})
