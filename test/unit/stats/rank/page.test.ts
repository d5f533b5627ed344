import fc from 'fast-check'
import { expect, test } from 'vitest'
import { page } from '@/lib/stats/rank/page'

test('the opposite order has the complementary tail', () => {
  const table = fc.array(fc.array(fc.integer({ min: 1, max: 5 }), { minLength: 4, maxLength: 4 }), {
    minLength: 1,
    maxLength: 5,
  })
  fc.assert(
    fc.property(table, (scores) => {
      const there = page(scores)
      const back = page(scores.map((row) => row.toReversed()))
      if (there.z === null || back.z === null || there.pExact === null || back.pExact === null) return
      expect(there.z + back.z).toBeCloseTo(0, 10)
      // P(L ≥ l) + P(L ≤ l) counts P(L = l) twice.
      expect(there.pExact + back.pExact).toBeGreaterThanOrEqual(1 - 1e-12)
      expect(there.pExact).toBeLessThanOrEqual(1)
    }),
  )
})

test('one taster in the order expected: 1 in k!', () => {
  expect(page([[1, 2, 3, 4]])).toMatchObject({ L: 30, pExact: 1 / 24 })
})

test('all tied: L, but nothing to test', () => {
  expect(page([[2, 2, 2]])).toEqual({ L: 12, z: null, p: null, pExact: null })
})

test('too many cups for the exact tail leave it null', () => {
  expect(page([Array.from({ length: 18 }, (_, j) => j)]).pExact).toBeNull()
})
