import { expect, test } from 'vitest'
import { cupPairs, modelPairs, pairPlaces } from '@/lib/stats/liking/cup-pairs'
import { likingReading } from '@/lib/stats/liking/liking-reading'
import { smallPanel } from '../../../support/small-panel'

test('pairs stand in label order, their difference a − b', () => {
  const { rows, cupMeans, residual } = smallPanel()
  const pairs = cupPairs(likingReading(rows, {}), 0.95)
  expect(pairs.map(({ a, b }) => `${a} ${b}`)).toEqual(['c0 c1', 'c0 c2', 'c1 c2'])
  const [first] = pairs
  expect(first?.difference).toBeCloseTo((cupMeans[0] ?? 0) - (cupMeans[1] ?? 0), 10)
  expect(first?.effectSize).toBeCloseTo(((cupMeans[0] ?? 0) - (cupMeans[1] ?? 0)) / Math.sqrt(residual), 8)
  // differences −1, −2, −2, −3
  expect(first).toMatchObject({ preferA: 0, preferB: 4, tied: 0, shareA: { estimate: 0 } })
  expect(first?.signedRank).toMatchObject({ statistic: 0, exact: true })
})

test('in a complete panel the robust error of a pair is that of its own differences', () => {
  for (const { robust, paired } of cupPairs(likingReading(smallPanel().rows, {}), 0.95)) {
    expect(robust.se).toBeCloseTo(paired?.se ?? NaN, 12)
    expect(robust.df).toBeCloseTo(3, 10)
    expect(robust.p).toBeCloseTo(paired?.p ?? NaN, 12)
  }
})

test('all differences equal: no paired test, and Holm counts the others only', () => {
  const rows = [1, 2, 3, 4, 5].flatMap((taster) =>
    [taster, taster + 2, [3, 8, 1, 9, 4][taster - 1] ?? 0].map((score, cup) => ({
      taster: `t${taster}`,
      cup: `c${cup}`,
      score,
    })),
  )
  const [flat, second, third] = cupPairs(likingReading(rows, {}), 0.95)
  expect(flat?.paired).toBeNull()
  expect(flat?.robust).toMatchObject({ se: 0, t: null, p: null, interval: null })
  const ps = [second?.paired?.p ?? NaN, third?.paired?.p ?? NaN]
  const adjusted = [second?.paired?.pHolm ?? NaN, third?.paired?.pHolm ?? NaN]
  expect(Math.min(...adjusted)).toBeCloseTo(Math.min(1, 2 * Math.min(...ps)), 12)
})

test('with one taster only plain differences are left', () => {
  const rows = smallPanel().rows.slice(0, 3)
  const reading = likingReading(rows, {})
  expect(modelPairs(reading, 0.95)[0]).toMatchObject({ se: null, p: null, effectSize: null })
  expect(cupPairs(reading, 0.95)[0]).toMatchObject({ pTukey: null, robust: { se: null }, paired: null })
})

test('three cups make three pairs', () => {
  expect(pairPlaces(3)).toEqual([
    [0, 1],
    [0, 2],
    [1, 2],
  ])
})
