import { expect, test } from 'vitest'
import { mean } from '@/lib/stats/describe'
import { bootstrapInterval, permutationTest, signFlipTest } from '@/lib/stats/resample'
import { studentTwoSided } from '@/lib/stats/distribution/student'

const draws = 20_000

/** Student (1908), hours of sleep gained, second drug less first. */
const GAINED = Object.freeze([1.2, 2.4, 1.3, 1.3, 0.0, 1.0, 1.8, 0.8, 4.6, 1.4])

test('one seed gives one answer, whatever the order of rows', () => {
  const ask = (list: readonly number[], seed: number) => bootstrapInterval(list, mean, { level: 0.9, draws: 500, seed })
  expect(ask(GAINED.toReversed(), 7)).toEqual(ask(GAINED, 7))
  expect(ask(GAINED, 8)).not.toEqual(ask(GAINED, 7))
})

test('the bootstrap of a mean is as wide as the mean’s own error allows', () => {
  // Bootstrap standard error of a mean is √((n − 1) / n) s / √n: s = 1.2299 (R, sd), n = 10, so 0.3690; ± 1.96 of it
  const [low, high] = bootstrapInterval(GAINED, mean, { level: 0.95, draws, seed: 1 })
  expect(Math.abs((high - low) / (2 * 1.96 * 0.369) - 1)).toBeLessThan(0.08)
})

test('sign flips of ten differences agree with all 1024 of them', () => {
  // Nine of ten are positive and one is 0: only all signs alike reach the sum, 2 · 2 of 1024 with the zero either way
  const p = signFlipTest(GAINED, { draws, seed: 3 })
  expect(Math.abs(p - 4 / 1024)).toBeLessThan(5 * Math.sqrt(0.004 / draws))
})

test('two groups of three apart: one of ten splits on either side', () => {
  const p = permutationTest([1, 2, 3], [7, 8, 9], { draws, seed: 5 })
  expect(Math.abs(p - 0.1)).toBeLessThan(5 * Math.sqrt(0.09 / draws))
})

test('groups of unequal size are cut at their own size', () => {
  // All splits of 1 2 3 4 5 10 into one and five: only 10 alone is as far as 10 alone, 1 in 6
  const p = permutationTest([10], [1, 2, 3, 4, 5], { draws, seed: 5 })
  expect(Math.abs(p - 1 / 6)).toBeLessThan(5 * Math.sqrt(0.14 / draws))
  expect(permutationTest([1, 2, 3, 4, 5], [10], { draws, seed: 5 })).toBe(p)
})

test('p is never 0 and is 1 where nothing can differ', () => {
  expect(
    signFlipTest(
      Array.from({ length: 40 }, () => 5),
      { draws: 100, seed: 1 },
    ),
  ).toBe(1 / 101)
  expect(permutationTest([2, 2], [2, 2], { draws: 100, seed: 1 })).toBe(1)
})

test('flips and Student’s t are near each other', () => {
  const list = [0.9, -0.4, 1.2, 0.3, 0.8, -0.2, 0.5, 1.1, -0.6, 0.7, 0.4, 0.6]
  // R 4.2.2, t.test: t = 2.6490971 on 11
  expect(Math.abs(signFlipTest(list, { draws, seed: 2 }) - studentTwoSided(2.6490971, 11))).toBeLessThan(0.01)
})

test('too few draws or readings are refused by value', () => {
  expect(() => bootstrapInterval([1], mean, { level: 0.9, draws: 500, seed: 1 })).toThrow('got 1')
  expect(() => signFlipTest([1, 2], { draws: 10, seed: 1 })).toThrow('got 10')
  expect(() => permutationTest([], [1], { draws: 500, seed: 1 })).toThrow('got 0')
})
