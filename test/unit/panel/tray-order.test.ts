import { describe, expect, test } from 'vitest'
import { positionCounts, spread } from '@/lib/panel/balance'
import { balancedTrays } from '@/lib/panel/incomplete-block'
import { orderTrays } from '@/lib/panel/tray-order'
import { seededRandom } from '@/lib/stats/random'

const fromOne = (rows: readonly (readonly number[])[]) => rows.map((row) => row.map((cup) => cup + 1))

describe('orderTrays', () => {
  const trays = Object.freeze(balancedTrays(7, 3) ?? [])

  test('changes the order within trays and nothing else', () => {
    const rows = orderTrays([], trays, 7, seededRandom(1))
    const sorted = (all: readonly (readonly number[])[]) => all.map((tray) => tray.toSorted((a, b) => a - b).join())
    expect(sorted(rows)).toEqual(sorted(trays))
  })

  test('seven trays of three from seven cups: each cup once at each place (a Youden square), for every seed', () => {
    for (let seed = 0; seed < 20; seed += 1) {
      expect(spread(positionCounts(fromOne(orderTrays([], trays, 7, seededRandom(seed))), 7))).toBe(0)
    }
  })

  test('orders given out before are made up for', () => {
    const before = trays.map((tray) => tray.toSorted((a, b) => a - b))
    const uneven = spread(positionCounts(fromOne(before), 7))
    const after = orderTrays(before, [...trays, ...trays], 7, seededRandom(3))
    expect(uneven).toBeGreaterThan(1)
    expect(spread(positionCounts(fromOne([...before, ...after]), 7))).toBeLessThanOrEqual(1)
  })
})
