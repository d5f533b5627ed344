import { describe, expect, test } from 'vitest'
import { followCounts, positionCounts, spread } from '@/lib/panel/balance'
import { completeRows } from '@/lib/panel/complete-order'
import { seededRandom } from '@/lib/stats/random'

const fromOne = (rows: readonly (readonly number[])[]) => rows.map((row) => row.map((cup) => cup + 1))

describe('completeRows', () => {
  test('whoever stays away at the end leaves places within one', () => {
    const rows = fromOne(completeRows([], 60, 5, seededRandom(4)))
    for (let served = 1; served <= 60; served += 1) {
      expect(spread(positionCounts(rows.slice(0, served), 5))).toBeLessThanOrEqual(1)
    }
  })

  test('labels and rows are random: first rows of many seeds are not all alike, and each cup comes first about equally', () => {
    const firsts = Array.from({ length: 600 }, (_, seed) => completeRows([], 1, 6, seededRandom(seed))[0]?.[0] ?? -1)
    const counts = [0, 1, 2, 3, 4, 5].map((cup) => firsts.filter((first) => first === cup).length)
    const chiSquared = counts.reduce((sum, count) => sum + (count - 100) ** 2 / 100, 0)
    expect(chiSquared).toBeLessThan(20.515) // upper 0.001 point, 5 df, NIST/SEMATECH e-Handbook 1.3.6.7.4
  })

  test('rows that were begun are finished before a new square begins', () => {
    const begun = completeRows([], 7, 6, seededRandom(1))
    const rest = completeRows(begun, 5, 6, seededRandom(2))
    const all = fromOne([...begun, ...rest])
    expect(spread(positionCounts(all, 6))).toBe(0)
    expect(spread(followCounts(all, 6), (a, b) => a === b)).toBe(0)
  })
})
