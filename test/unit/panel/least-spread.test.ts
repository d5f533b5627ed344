import { describe, expect, test } from 'vitest'
import { balancedTrays } from '@/lib/panel/incomplete-block'
import { leastSpread } from '@/lib/panel/least-spread'

describe('leastSpread', () => {
  test('is nothing where a balanced design exists and never more than one tray short of it', () => {
    for (const [cups, size] of [
      [6, 3],
      [7, 3],
      [9, 4],
      [11, 5],
    ] as const) {
      const b = balancedTrays(cups, size)?.length ?? 0
      expect(leastSpread(b, cups, size)).toBe(0)
      expect(leastSpread(b - 1, cups, size)).toBe(1)
    }
  })

  test('two trays of four from six must leave two cups apart that others share twice', () => {
    // Servings 2, 2, 1, 1, 1, 1: the two served twice are together twice, two served once never meet.
    expect(leastSpread(2, 6, 4)).toBe(2)
  })
})
