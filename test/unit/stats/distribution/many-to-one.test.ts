import { expect, test } from 'vitest'
import { manyToOneInside, manyToOneOutside, manyToOneQuantile } from '@/lib/stats/distribution/many-to-one'
import { studentQuantile, studentTwoSided } from '@/lib/stats/distribution/student'

const equal = (m: number, r: number) =>
  Array.from({ length: m }, (_, i) => Array.from({ length: m }, (_, j) => (i === j ? 1 : r)))

test('one contrast is the two-sided t', () => {
  for (const df of [1.7, 12, Infinity]) {
    expect(Math.abs(manyToOneOutside(2.3, df, [[1]]) - studentTwoSided(2.3, df))).toBeLessThan(1e-12)
    expect(Math.abs(manyToOneQuantile(0.95, df, [[1]]) / studentQuantile(0.975, df) - 1)).toBeLessThan(1e-10)
  }
})

test('independent normal contrasts multiply', () => {
  const inside = (1 - studentTwoSided(2, Infinity)) ** 4
  expect(Math.abs(manyToOneInside(2, Infinity, equal(4, 0)) - inside)).toBeLessThan(1e-12)
})

test('contrasts that are the same, or mirror images, count once', () => {
  const one = manyToOneOutside(2, 9, [[1]])
  expect(Math.abs(manyToOneOutside(2, 9, equal(3, 1)) - one)).toBeLessThan(1e-12)
  const mirrored = [
    [1, -1],
    [-1, 1],
  ]
  expect(Math.abs(manyToOneOutside(2, 9, mirrored) - one)).toBeLessThan(1e-12)
})

test('the answer lies between one contrast and Bonferroni’s bound, and the order of contrasts does not matter', () => {
  const rho = [
    [1, 0.3, 0.6],
    [0.3, 1, 0.4],
    [0.6, 0.4, 1],
  ]
  const turned = [2, 0, 1].map((i) => [2, 0, 1].map((j) => rho[i]?.[j] ?? NaN))
  const p = manyToOneOutside(2.2, 17, rho)
  expect(p).toBeGreaterThan(studentTwoSided(2.2, 17))
  expect(p).toBeLessThan(3 * studentTwoSided(2.2, 17))
  expect(Math.abs(manyToOneOutside(2.2, 17, turned) - p)).toBeLessThan(1e-9)
})

test('a small tail keeps its digits', () => {
  const p = manyToOneOutside(7, Infinity, equal(3, 0.5))
  expect(p / (3 * studentTwoSided(7, Infinity))).toBeCloseTo(1, 3)
})

test('the quantile inverts, and eleven contrasts are possible', () => {
  const q = manyToOneQuantile(0.95, 30, equal(11, 0.5))
  expect(manyToOneInside(q, 30, equal(11, 0.5))).toBeCloseTo(0.95, 11)
})

test.each([
  [() => manyToOneInside(Number.NaN, 3, [[1]]), /got NaN/],
  [() => manyToOneOutside(1, 0, [[1]]), /got 0/],
  [() => manyToOneOutside(1, 3, []), /got 0/],
  [() => manyToOneOutside(1, 3, equal(12, 0.5)), /got 12/],
  [() => manyToOneOutside(1, 3, [[2]]), /got 2/],
  [
    () =>
      manyToOneOutside(1, 3, [
        [1, 0.2],
        [0.3, 1],
      ]),
    /symmetric/,
  ],
  [() => manyToOneOutside(1, 3, [[1, 0.2]]), /square/],
  [() => manyToOneQuantile(1.1, 3, [[1]]), /got 1.1/],
])('a broken promise is refused (%#)', (ask, message) => {
  expect(ask).toThrow(RangeError)
  expect(ask).toThrow(message)
})
