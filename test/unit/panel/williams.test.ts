import { describe, expect, test } from 'vitest'
import { followCounts, positionCounts, spread } from '@/lib/panel/balance'
import { familyOf, missingRows, williamsRow } from '@/lib/panel/williams'

const fromOne = (rows: readonly (readonly number[])[]) => rows.map((row) => row.map((cup) => cup + 1))
const diagonal = (row: number, column: number) => row === column

describe.each([2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12])('a square of %i cups', (n) => {
  const row = Object.freeze(williamsRow(n).toReversed())
  const { square, mirror } = familyOf(row, williamsRow(n), n % 2 === 1)

  test('has every cup once at each place, and so has its mirror image', () => {
    expect(spread(positionCounts(fromOne(square), n))).toBe(0)
    expect(mirror.length).toBe(n % 2 === 1 ? n : 0)
    expect(spread(positionCounts(fromOne(mirror), n))).toBe(0)
  })

  test('has every cup after every other equally often, with the mirror image where n is odd', () => {
    const counts = followCounts(fromOne([...square, ...mirror]), n)
    expect(spread(counts, diagonal)).toBe(0)
    expect(counts[0]?.[1]).toBe(n % 2 === 1 ? 2 : 1)
  })

  test('contains the row it was made from', () => {
    expect(square).toContainEqual(row)
  })

  test('can be finished from any part of it', () => {
    const given = [...square, ...mirror].filter((_, at) => at % 3 === 0)
    const missing = missingRows(given, williamsRow(n), n % 2 === 1).flat()
    expect([...given, ...missing].map((one) => one.join()).toSorted()).toEqual(
      [...square, ...mirror].map((one) => one.join()).toSorted(),
    )
  })
})

test('fewer than two cups have no square, and a row of another length belongs to none', () => {
  expect(() => williamsRow(1)).toThrow('at least two cups, got 1')
  expect(() => familyOf([0, 1], williamsRow(3), true)).toThrow('holds 3 cups, got 2')
})
