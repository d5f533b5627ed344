import { expect, test } from 'vitest'
import { isAtMost } from '@/lib/stats/multiplicity'
import { holmAmong, verdictSign } from '@/lib/stats/liking/verdict'

test('a comparison that cannot be tested stays in the family and answers null', () => {
  // Holm by hand with three in the family: 0.01·3, 0.04·2
  const [first, second, third] = holmAmong([0.01, null, 0.04])
  expect(first).toBeCloseTo(0.03, 12)
  expect(second).toBeNull()
  expect(third).toBeCloseTo(0.08, 12)
})

test('a verdict needs p at most 1 − level, the last digit of 0.05 not counted', () => {
  expect(verdictSign(1, 0.05, 0.95)).toBe(1)
  expect(verdictSign(-1, 0.01, 0.95)).toBe(-1)
  expect(verdictSign(1, 0.0501, 0.95)).toBe(0)
  expect(verdictSign(1, null, 0.95)).toBe(0)
  expect(isAtMost(0.05, 1 - 0.95)).toBe(true)
})
