import { expect, test } from 'vitest'
import { signTest } from '@/lib/stats/choice/sign-test'

test('small cases by hand', () => {
  // 2 · (1/2)⁵, 2 · 6/32, and nobody who differs
  expect(signTest(5, 0)).toBeCloseTo(0.0625, 14)
  expect(signTest(1, 4)).toBeCloseTo(0.375, 14)
  expect(signTest(0, 0)).toBe(1)
})

test('equal counts give p = 1 and both sides are alike', () => {
  expect(signTest(7, 7)).toBe(1)
  expect(signTest(3, 9)).toBe(signTest(9, 3))
})

test('counts below 0 and fractions are refused by value', () => {
  expect(() => signTest(-1, 2)).toThrow('got -1')
  expect(() => signTest(1.5, 2)).toThrow('got 1.5')
})
