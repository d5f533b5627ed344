import fc from 'fast-check'
import { expect, test } from 'vitest'
import { countPermutations, nextPermutation } from '@/lib/stats/next-permutation'

test('every different order is met once, and the list comes back sorted', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 0, max: 3 }), { minLength: 1, maxLength: 6 }), (list) => {
      const order = Int32Array.from(list).sort()
      const first = order.join()
      const seen = new Set<string>()
      do seen.add(order.join())
      while (nextPermutation(order))
      expect(seen.size).toBe(countPermutations(list))
      expect(order.join()).toBe(first)
    }),
  )
})

test('three letters twice each have 90 orders', () => {
  // 6! / (2! 2! 2!)
  expect(countPermutations([1, 1, 2, 2, 3, 3])).toBe(90)
})
