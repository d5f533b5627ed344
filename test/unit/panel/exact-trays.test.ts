import { describe, expect, test } from 'vitest'
import { spread } from '@/lib/panel/balance'
import { exactTrays } from '@/lib/panel/exact-trays'
import { servingOrders } from '@/lib/panel/order'
import { seededRandom } from '@/lib/stats/random'

const apart = (row: number, column: number): boolean => row !== column

/**
 * Elementary counting: N trays of M hold N (M − 1) followings, shared by K (K − 1) ordered pairs. Where these come out
 * whole, exact sets exist: all permutations (4 of 3), both orders of every pair (5 of 2), Williams squares in the trays of a
 * balanced incomplete block design (7 of 3, 8 of 4, 10 of 4); 5 of 3 × 20, 4 of 2 × 12 and 6 of 2 × 30 by search.
 */
const EXACT = [
  { cups: 4, perTaster: 3, tasters: 24, each: 4 },
  { cups: 5, perTaster: 2, tasters: 60, each: 3 },
  { cups: 5, perTaster: 3, tasters: 20, each: 2 },
  { cups: 5, perTaster: 2, tasters: 20, each: 1 },
  { cups: 4, perTaster: 2, tasters: 12, each: 1 },
  { cups: 4, perTaster: 3, tasters: 12, each: 2 },
  { cups: 6, perTaster: 2, tasters: 30, each: 1 },
  { cups: 7, perTaster: 3, tasters: 42, each: 2 },
  { cups: 8, perTaster: 4, tasters: 56, each: 3 },
  { cups: 10, perTaster: 4, tasters: 60, each: 2 },
  { cups: 5, perTaster: 4, tasters: 20, each: 3 },
  { cups: 6, perTaster: 5, tasters: 60, each: 8 },
]

describe('fewer cups each: who follows whom', () => {
  test.each(EXACT)(
    '$cups cups, $perTaster each, $tasters tasters: every cup follows every other $each times',
    ({ each, ...plan }) => {
      for (let seed = 1; seed <= 10; seed += 1) {
        const { followCounts, positionCounts } = servingOrders({ ...plan, seed })
        expect(spread(followCounts, apart), `seed ${seed}`).toBe(0)
        expect(followCounts[0]?.[1], `seed ${seed}`).toBe(each)
        expect(spread(positionCounts), `seed ${seed}`).toBe(0)
      }
    },
  )

  test.each([
    { cups: 6, perTaster: 4, tasters: 15 },
    { cups: 6, perTaster: 3, tasters: 20 },
    { cups: 6, perTaster: 4, tasters: 37 },
    { cups: 5, perTaster: 4, tasters: 15 },
    { cups: 5, perTaster: 3, tasters: 24 },
    { cups: 6, perTaster: 4, tasters: 24 },
  ])('$cups cups, $perTaster each, $tasters tasters: within one, and places too', (plan) => {
    for (let seed = 1; seed <= 10; seed += 1) {
      const { followCounts, positionCounts } = servingOrders({ ...plan, seed })
      expect(spread(followCounts, apart), `seed ${seed}`).toBeLessThanOrEqual(1)
      expect(spread(positionCounts), `seed ${seed}`).toBeLessThanOrEqual(1)
    }
  })

  test.each([
    { cups: 5, perTaster: 3, tasters: 1000 },
    { cups: 6, perTaster: 4, tasters: 200 },
    { cups: 7, perTaster: 4, tasters: 42 },
    { cups: 6, perTaster: 5, tasters: 30 },
    { cups: 12, perTaster: 5, tasters: 77 },
  ])('$cups cups, $perTaster each, $tasters tasters: within two, places within one', (plan) => {
    for (let seed = 1; seed <= 10; seed += 1) {
      const { followCounts, positionCounts } = servingOrders({ ...plan, seed })
      expect(spread(followCounts, apart), `seed ${seed}`).toBeLessThanOrEqual(2)
      expect(spread(positionCounts), `seed ${seed}`).toBeLessThanOrEqual(1)
    }
  })
})

test('no more sets than fit, and none where no design is known', () => {
  const rows = (cups: number, size: number, howMany: number) => exactTrays(cups, size, howMany, seededRandom(1))
  expect(rows(4, 3, 23)).toEqual([])
  expect(rows(4, 3, 71).map((set) => set.length)).toEqual([24, 24])
  expect(rows(15, 4, 10_000)).toEqual([])
})
