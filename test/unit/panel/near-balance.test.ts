import { describe, expect, test } from 'vitest'
import { pairCounts, spread } from '@/lib/panel/balance'
import { leastSpread } from '@/lib/panel/least-spread'
import { evenTrays } from '@/lib/panel/near-balance'

const fromOne = (rows: readonly (readonly number[])[]) => rows.map((row) => row.map((cup) => cup + 1))
const pairSpread = (rows: readonly (readonly number[])[], cups: number) =>
  spread(pairCounts(fromOne(rows), cups), (row, column) => row === column)

describe('evenTrays', () => {
  test.each([
    [6, 3, 7],
    [8, 3, 24],
    [9, 4, 25],
    [10, 3, 17],
    [12, 4, 50],
    [12, 5, 54],
    [12, 8, 19],
  ])('%i cups, trays of %i, %i tasters: pairs are as even as can be, cups within one', (cups, size, howMany) => {
    const trays = evenTrays([], howMany, cups, size)
    expect(trays.length).toBe(howMany)
    expect(trays.every((tray) => new Set(tray).size === size)).toBe(true)
    const served = Array.from({ length: cups }, (_, cup) => trays.filter((tray) => tray.includes(cup)).length)
    expect(Math.max(...served) - Math.min(...served)).toBeLessThanOrEqual(1)
    expect(pairSpread(trays, cups)).toBe(leastSpread(howMany, cups, size))
  })

  test('new trays make up for what the trays before left uneven', () => {
    const before = [
      [0, 1, 2],
      [0, 1, 3],
      [0, 1, 4],
    ]
    const after = evenTrays(before, 17, 6, 3)
    const all = [...before, ...after]
    const served = [0, 1, 2, 3, 4, 5].map((cup) => all.filter((tray) => tray.includes(cup)).length)
    expect(new Set(served)).toEqual(new Set([10]))
    expect(pairSpread(all, 6)).toBeLessThanOrEqual(1)
  })
})
