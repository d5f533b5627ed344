import { expect, test } from 'vitest'
import {
  invertPositiveDefinite,
  multiply,
  quadratic,
  solveSemidefinite,
  traceOfProduct,
} from '@/lib/stats/algebra/positive-definite'

const near = (got: ArrayLike<number> | undefined, want: readonly number[]) =>
  want.forEach((value, i) => expect(got?.[i]).toBeCloseTo(value, 12))

test('a two by two matrix has the inverse and determinant of the schoolbook', () => {
  // [[4, 2], [2, 3]]: determinant 8, inverse [[3, -2], [-2, 4]] / 8
  const found = invertPositiveDefinite(Float64Array.of(4, 2, 2, 3), 2)
  near(found?.inverse, [3 / 8, -2 / 8, -2 / 8, 4 / 8])
  expect(found?.logDeterminant).toBeCloseTo(Math.log(8), 12)
})

test('a matrix that is singular or indefinite has no inverse', () => {
  expect(invertPositiveDefinite(Float64Array.of(1, 1, 1, 1), 2)).toBeNull()
  expect(invertPositiveDefinite(Float64Array.of(1, 2, 2, 1), 2)).toBeNull()
})

test('a column that repeats earlier ones is named and left at zero', () => {
  // third column is the sum of the first two; x solves the first two equations 2x + y = 4, x + 2y = 5
  const { solution, dependent } = solveSemidefinite(
    Float64Array.of(2, 1, 3, 1, 2, 3, 3, 3, 6),
    Float64Array.of(4, 5, 9),
    3,
  )
  expect(dependent).toEqual([2])
  near(solution, [1, 2, 0])
})

test('products, traces and forms follow their definitions', () => {
  const [a, b] = [Float64Array.of(1, 2, 3, 4), Float64Array.of(0, 1, 1, 0)]
  near(multiply(a, b, 2), [2, 1, 4, 3])
  expect(traceOfProduct(a, b, 2)).toBe(5)
  expect(quadratic([1, 2], a, [3, 4], 2)).toBe(1 * 3 + 2 * 4 + 2 * (3 * 3 + 4 * 4))
})
