import { expect, test } from 'vitest'
import { cupMeans } from '@/lib/stats/liking/cup-means'
import { likingModel } from '@/lib/stats/liking/liking-model'
import { tasterMeans } from '@/lib/stats/liking/taster-means'
import { smallPanel } from '../../../support/small-panel'

const panel = smallPanel()
const model = likingModel(panel.table, 'none', 'satterthwaite', { position: false, carryOver: false })

test('in a full panel plain means and estimates are the same, and se holds both variances', () => {
  const got = cupMeans(panel.table.cups, model, tasterMeans(panel.table), panel.table, 0.95)
  got.forEach((cup, i) => {
    expect(cup.n).toBe(4)
    expect(cup.mean).toBeCloseTo(panel.cupMeans[i] ?? NaN, 12)
    expect(cup.estimate).toBeCloseTo(panel.cupMeans[i] ?? NaN, 10)
    expect(cup.se).toBeCloseTo(Math.sqrt((panel.taster + panel.residual) / 4), 8)
  })
  // 3, 5, 6, 2: squares about the mean 4 are 10, divided by 3
  expect(got[0]?.sd).toBeCloseTo(Math.sqrt(10 / 3), 12)
})

test('without a model the estimate is the plain mean without an error', () => {
  const [first] = cupMeans(panel.table.cups, null, tasterMeans(panel.table), panel.table, 0.95)
  expect(first).toMatchObject({ estimate: 4, se: null, df: null, interval: null })
})
