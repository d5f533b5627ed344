import { describe, expect, test } from 'vitest'
import { efficiency, followCounts, pairCounts, positionCounts, spread } from '@/lib/panel/balance'

const orders = Object.freeze([
  [1, 2, 3],
  [2, 3, 1],
  [3, 1, 4],
])

describe('counting', () => {
  test('each cup is counted at each place', () => {
    expect(positionCounts(orders, 4)).toEqual([
      [1, 1, 1],
      [1, 1, 0],
      [1, 1, 1],
      [0, 0, 1],
    ])
  })

  test('each cup is counted after the one before it', () => {
    expect(followCounts(orders, 4)).toEqual([
      [0, 1, 0, 1],
      [0, 0, 2, 0],
      [2, 0, 0, 0],
      [0, 0, 0, 0],
    ])
  })

  test('each pair is counted once per tray, both ways round', () => {
    expect(pairCounts(orders, 4)).toEqual([
      [0, 2, 3, 1],
      [2, 0, 2, 0],
      [3, 2, 0, 1],
      [1, 0, 1, 0],
    ])
  })

  test('the spread is largest less smallest, cells left out not counted', () => {
    expect(spread([[5, 2, 3]])).toBe(3)
    expect(spread(pairCounts(orders, 4), (row, column) => row === column)).toBe(3)
    expect(spread([])).toBe(0)
  })

  test('a cup outside the numbers is refused', () => {
    expect(() => positionCounts([[1, 5]], 4)).toThrow(RangeError)
  })
})

describe('efficiency', () => {
  test('complete trays have 1', () => {
    expect(
      efficiency(
        [
          [1, 2, 3],
          [3, 1, 2],
        ],
        3,
      ),
    ).toBeCloseTo(1, 12)
  })

  test('trays of one cup compare nothing', () => {
    expect(efficiency([[1], [2]], 2)).toBe(0)
  })

  test('three of all pairs of four cups: eigenvalues worked out by hand', () => {
    // Trays 12, 23, 34: C is half the Laplacian of a path, eigenvalues 1 − cos(kπ/4) (common knowledge), r̄ = 6/4.
    const roots = [1, 2, 3].map((k) => (1 - Math.cos((k * Math.PI) / 4)) / 1.5)
    const harmonic = 3 / roots.reduce((sum, root) => sum + 1 / root, 0)
    expect(
      efficiency(
        [
          [1, 2],
          [3, 2],
          [3, 4],
        ],
        4,
      ),
    ).toBeCloseTo(harmonic, 12)
  })
})
