import fc from 'fast-check'
import { expect, test } from 'vitest'
import { midranks, midranksPresent } from '@/lib/stats/rank/midrank'

test('equal readings share the mean of their places', () => {
  expect(midranks([5, 1, 5, 3])).toEqual([3.5, 1, 3.5, 2])
  expect(midranks([])).toEqual([])
})

test('readings that differ by rounding are equal', () => {
  expect(midranks([0.1 + 0.2, 0.3, 1])).toEqual([1.5, 1.5, 3])
})

test('a reading that is not finite is refused by name', () => {
  expect(() => midranks([1, NaN])).toThrow('got NaN')
})

test('ranks sum to n (n + 1) / 2, whatever is tied', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 0, max: 9 }), { maxLength: 30 }), (list) => {
      const n = list.length
      expect(midranks(list).reduce((sum, rank) => sum + rank, 0)).toBe((n * (n + 1)) / 2)
    }),
  )
})

test('gaps stay gaps and the rest is ranked among itself', () => {
  expect(midranksPresent([null, 9, 2, null, 9])).toEqual([null, 2.5, 1, null, 2.5])
})
