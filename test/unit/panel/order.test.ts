import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { followCounts, pairCounts, positionCounts, spread } from '@/lib/panel/balance'
import { leastSpread } from '@/lib/panel/least-spread'
import { extendOrders, servingOrders } from '@/lib/panel/order'

const diagonal = (row: number, column: number) => row === column
const served = (counts: readonly (readonly number[])[]) => counts.map((row) => row.reduce((sum, one) => sum + one, 0))

/** Where no trays this even exist or none are known: largest less smallest pair count is one above the bound. */
const UNEVEN = new Set(
  (
    '5,3,3 7,4,3 8,4,3 8,4,4 8,4,6 8,4,7 9,4,4 9,4,7 9,4,8 9,4,10 9,4,11 9,5,3 9,5,5 9,5,6 10,4,6 10,4,7 10,4,9 ' +
    '10,5,3 10,5,4 10,5,7 10,5,8 10,6,7 10,6,8 11,3,18 11,4,7 11,4,8 11,5,3 11,5,4 11,5,7 11,5,8 11,5,9 11,6,3 ' +
    '11,6,5 11,6,6 11,6,9 11,7,9 12,5,4 12,5,8 12,5,9 12,5,10 12,5,11 12,6,3 12,6,4 12,6,6 12,6,7 12,6,8 12,6,10 ' +
    '12,6,11 12,7,5 12,7,7 12,7,8 12,10,33 12,10,99'
  ).split(' '),
)

describe.each([2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12])('all %i cups', (cups) => {
  test('for 1 to 100, 250 and 500 tasters: places within one, followers within one (even) or two (odd), exact in full', () => {
    for (const tasters of [...Array.from({ length: 100 }, (_, at) => at + 1), 250, 500]) {
      const { orders, ...counts } = servingOrders({ cups, tasters, seed: tasters })
      expect(orders.every((order) => order.length === cups && new Set(order).size === cups)).toBe(true)
      const odd = cups % 2
      const full = tasters % (odd ? 2 * cups : cups) === 0
      expect(spread(counts.positionCounts)).toBeLessThanOrEqual(tasters % cups === 0 ? 0 : 1)
      expect(spread(counts.followCounts, diagonal)).toBeLessThanOrEqual(full ? 0 : odd ? 2 : 1)
      expect(spread(counts.pairCounts, diagonal)).toBe(0)
      expect(counts.efficiency).toBeCloseTo(1, 12)
    }
  })

  test('one served twice: places within one, the copy never beside its twin', () => {
    for (const tasters of [1, 2, 3, 5, 8, 12, 13, 24, 60, 200]) {
      for (const duplicate of [1, cups]) {
        const { orders, ...counts } = servingOrders({ cups, tasters, duplicate, seed: 9 })
        expect(orders.every((order) => new Set(order).size === cups + 1 && order.length === cups + 1)).toBe(true)
        expect(counts.followCounts[duplicate - 1]?.[cups]).toBe(0)
        expect(counts.followCounts[cups]?.[duplicate - 1]).toBe(0)
        // With two cups the other one can only stand between the two servings of the first.
        if (cups > 2) expect(spread(counts.positionCounts)).toBeLessThanOrEqual(1)
      }
    }
  })
})

describe.each([3, 4, 5, 6, 7, 8, 9, 10, 11, 12])('some of %i cups', (cups) => {
  const numbers = [1, 2, 3, 5, 7, 10, 15, 18, 22, 24, 33, 44, 60, 99, 132]
  test('every size of tray: cups within one, pairs as even as can be, places within two', { timeout: 60_000 }, () => {
    for (let perTaster = 2; perTaster < cups; perTaster += 1) {
      for (const tasters of numbers) {
        const { orders, ...counts } = servingOrders({ cups, perTaster, tasters, seed: tasters })
        const name = `${cups},${perTaster},${tasters}`
        expect(
          orders.every((order) => order.length === perTaster && new Set(order).size === perTaster),
          name,
        ).toBe(true)
        const often = served(counts.positionCounts)
        expect(Math.max(...often) - Math.min(...often), name).toBeLessThanOrEqual(1)
        const bound = leastSpread(tasters, cups, perTaster) + (UNEVEN.has(name) ? 1 : 0)
        expect(spread(counts.pairCounts, diagonal), name).toBeLessThanOrEqual(bound)
        expect(spread(counts.positionCounts), name).toBeLessThanOrEqual(2)
      }
    }
  })
})

describe('a seed', () => {
  test('gives the same orders again, and another seed others', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 7 }),
        fc.integer({ min: 1, max: 20 }),
        fc.integer(),
        (cups, tasters, seed) => {
          const plan = { cups, tasters, seed, perTaster: Math.max(2, cups - 1) }
          expect(servingOrders(plan)).toEqual(servingOrders(plan))
        },
      ),
      { numRuns: 25 },
    )
    expect(servingOrders({ cups: 6, tasters: 12, seed: 1 })).not.toEqual(
      servingOrders({ cups: 6, tasters: 12, seed: 2 }),
    )
  })
})

describe('tasters who come later', () => {
  test.each([
    [4, 5, 3],
    [6, 6, 6],
    [5, 7, 13],
    [3, 4, 8],
  ])('%i cups, %i planned and %i added: as balanced as if planned together', (cups, planned, added) => {
    const first = servingOrders({ cups, tasters: planned, seed: 5 }).orders
    const all = [...first, ...extendOrders(first, added, { cups, seed: 5 })]
    const full = all.length % (cups % 2 ? 2 * cups : cups) === 0
    expect(spread(positionCounts(all, cups))).toBeLessThanOrEqual(all.length % cups === 0 ? 0 : 1)
    expect(spread(followCounts(all, cups), diagonal)).toBeLessThanOrEqual(full ? 0 : cups % 2 ? 2 : 1)
  })

  test('one at a time, with a copy, and with incomplete trays', () => {
    for (const plan of [{ cups: 5 }, { cups: 4, duplicate: 2 }, { cups: 6, perTaster: 3 }]) {
      const labels = plan.cups + (plan.duplicate === undefined ? 0 : 1)
      let all: number[][] = []
      for (let seat = 0; seat < 20; seat += 1) all = [...all, ...extendOrders(all, 1, { ...plan, seed: 3 })]
      const often = served(positionCounts(all, labels))
      expect(Math.max(...often) - Math.min(...often)).toBeLessThanOrEqual(1)
      expect(spread(positionCounts(all, labels))).toBeLessThanOrEqual(2)
      expect(spread(pairCounts(all, labels), diagonal)).toBeLessThanOrEqual(plan.perTaster ? 2 : 0)
      if (plan.duplicate) expect(followCounts(all, labels)[plan.duplicate - 1]?.[plan.cups]).toBe(0)
    }
  })

  test('orders of another plan are refused', () => {
    expect(() => extendOrders([[1, 2, 3]], 1, { cups: 4, seed: 1 })).toThrow('not an order of this plan: 1 2 3')
  })
})

test.each([
  [{ cups: 1, tasters: 4, seed: 1 }, 'cups must be a whole number from 2 to 15, got 1'],
  [{ cups: 4, tasters: 0, seed: 1 }, 'tasters must be a whole number from 1 to 10000, got 0'],
  [{ cups: 4, tasters: 4, seed: 1, perTaster: 5 }, 'per-taster must be a whole number from 2 to 4, got 5'],
  [{ cups: 4, tasters: 4, seed: 1, duplicate: 5 }, 'duplicate must be a whole number from 1 to 4, got 5'],
  [{ cups: 4, tasters: 4, seed: 0.5 }, 'seed'],
])('a plan out of bounds is refused by name: %j', (plan, message) => {
  expect(() => servingOrders(plan)).toThrow(message)
})
