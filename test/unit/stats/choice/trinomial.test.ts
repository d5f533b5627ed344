import fc from 'fast-check'
import { expect, test } from 'vitest'
import { signTest } from '@/lib/stats/choice/sign-test'
import { netPreference, trinomialTest } from '@/lib/stats/choice/trinomial'

const count = fc.integer({ min: 0, max: 30 })

test('without an answer for neither it is the exact binomial p', () => {
  fc.assert(
    fc.property(count, count, (a, b) => {
      expect(trinomialTest(a, b, 0)).toBeCloseTo(signTest(a, b), 12)
    }),
  )
})

test('both sides are alike and p lies between 0 and 1', () => {
  fc.assert(
    fc.property(count, count, count, (a, b, none) => {
      const p = trinomialTest(a, b, none)
      expect(p > 0 && p <= 1).toBe(true)
      expect(trinomialTest(b, a, none)).toBe(p)
    }),
  )
})

test('the lead turns its sign with the sides, and needs an answer', () => {
  const { estimate, interval } = netPreference(3, 9, 8, 0.9)
  expect(estimate).toBe(-0.3)
  expect(netPreference(9, 3, 8, 0.9).interval[1]).toBeCloseTo(-interval[0], 14)
  expect(() => netPreference(0, 0, 0, 0.9)).toThrow('got 0')
  expect(() => trinomialTest(1, 2, -3)).toThrow('got -3')
})
