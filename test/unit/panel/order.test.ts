import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { followCounts, pairCounts, positionCounts, spread, type Orders } from '@/lib/panel/balance'
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
})

/** Meetings of each pair of labels, whichever comes first. */
function meetings(orders: Orders, labels: number): { readonly pair: string; readonly count: number }[] {
  const follows = followCounts(orders, labels)
  return follows.flatMap((row, a) =>
    row.flatMap((count, b) => (a < b ? [{ pair: `${a + 1} ${b + 1}`, count: count + (follows[b]?.[a] ?? 0) }] : [])),
  )
}

describe.each([3, 4, 5, 6, 7, 8, 9, 10, 11, 12])('%i cups, one of them served twice', (cups) => {
  const labels = cups + 1
  const odd = labels % 2

  test('places within one, and the two pourings meet as often as any two cups: within two (odd), one (even) a way', () => {
    for (let tasters = 8; tasters <= 60; tasters += 1) {
      for (const duplicate of [1, cups]) {
        const { orders, ...counts } = servingOrders({ cups, tasters, duplicate, seed: tasters })
        expect(orders.every((order) => new Set(order).size === labels && order.length === labels)).toBe(true)
        const full = tasters % (odd ? 2 * labels : labels) === 0
        expect(spread(counts.positionCounts)).toBeLessThanOrEqual(tasters % labels === 0 ? 0 : 1)
        expect(spread(counts.followCounts, diagonal)).toBeLessThanOrEqual(full ? 0 : odd ? 2 : 1)
        // By counting: N trays have N · K meetings of neighbours among K (K + 1) / 2 pairs, 2 N / (K + 1) each.
        const mean = (2 * tasters) / labels
        const twins = meetings(orders, labels).find(({ pair }) => pair === `${duplicate} ${labels}`)?.count ?? -1
        expect(Math.abs(twins - mean)).toBeLessThanOrEqual(full ? 1e-12 : odd ? 4 : 2)
      }
    }
  })

  test('with seats added one at a time as well', () => {
    let all: number[][] = servingOrders({ cups, tasters: 8, duplicate: 2, seed: 11 }).orders
    while (all.length < 60) {
      all = [...all, ...extendOrders(all, 1, { cups, duplicate: 2, seed: 11 })]
      const full = all.length % (odd ? 2 * labels : labels) === 0
      expect(spread(positionCounts(all, labels))).toBeLessThanOrEqual(all.length % labels === 0 ? 0 : 1)
      expect(spread(followCounts(all, labels), diagonal)).toBeLessThanOrEqual(full ? 0 : odd ? 2 : 1)
    }
  })
})

describe.each([3, 4, 5, 6])('who guesses from the serving list which of %i cups is served twice', (cups) => {
  const labels = cups + 1
  const pairs = (labels * cups) / 2
  const panels = 400

  // One of `pairs` pairs is the duplicate: a guess is right in one of `pairs` panels, four standard errors allowed.
  test.each([
    ['least', 1],
    ['most', -1],
  ])('by the letters that meet %s is right no more often than by chance', (_, sign) => {
    let right = 0
    for (let seed = 0; seed < panels; seed += 1) {
      const tasters = 8 + (seed % 53)
      const duplicate = 1 + (seed % cups)
      const { orders } = servingOrders({ cups, tasters, duplicate, seed })
      const all = meetings(orders, labels)
      const extreme = Math.min(...all.map(({ count }) => sign * count))
      const candidates = all.filter(({ count }) => sign * count === extreme).map(({ pair }) => pair)
      if (candidates.includes(`${duplicate} ${labels}`)) right += 1 / candidates.length
    }
    const share = 1 / pairs
    expect(right / panels).toBeLessThan(share + 4 * Math.sqrt((share * (1 - share)) / panels))
  })
})

describe('a panel whose two pourings were kept apart, as the first version dealt them', () => {
  // Dealt by the first version for the seed 7, the first cup served twice.
  const four: Orders = [
    [3, 4, 2, 1],
    [2, 1, 3, 4],
    [4, 2, 1, 3],
    [1, 3, 4, 2],
    [1, 2, 4, 3],
    [4, 3, 1, 2],
    [3, 1, 2, 4],
    [2, 4, 3, 1],
    [4, 3, 1, 2],
  ]
  const three: Orders = [
    [1, 2, 3],
    [3, 2, 1],
    [1, 2, 3],
    [3, 2, 1],
    [1, 2, 3],
  ]

  test('seats added there bring the two together, and places stay within two', () => {
    expect(meetings(four, 4).find(({ pair }) => pair === '1 4')?.count).toBe(0)
    const added = extendOrders(four, 15, { cups: 3, duplicate: 1, seed: 7 })
    expect(meetings(added, 4).find(({ pair }) => pair === '1 4')?.count).toBeGreaterThan(0)
    expect(spread(positionCounts([...four, ...added], 4))).toBeLessThanOrEqual(2)
  })

  test('two trials and a duplicate, which no new panel may have, still take seats', () => {
    const added = extendOrders(three, 12, { cups: 2, duplicate: 1, seed: 7 })
    expect(added.every((order) => order.toSorted((a, b) => a - b).join() === '1,2,3')).toBe(true)
    // The single trial stood in the middle of five trays: of seventeen it has now been first and last as well.
    expect(positionCounts([...three, ...added], 3)[1]?.toSorted()).toEqual([5, 6, 6])
  })
})

describe.each([3, 4, 5, 6, 7, 8, 9, 10, 11, 12])('some of %i cups', (cups) => {
  const numbers = [1, 2, 3, 5, 7, 10, 15, 18, 22, 24, 33, 44, 60, 99, 132]
  test('every size of tray: cups within one, pairs as even as can be, places within two', () => {
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
  [{ cups: 2, tasters: 4, seed: 1, duplicate: 1 }, 'a duplicate needs at least 3 cups, got 2'],
])('a plan out of bounds is refused by name: %j', (plan, message) => {
  expect(() => servingOrders(plan)).toThrow(message)
})
