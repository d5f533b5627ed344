import fc from 'fast-check'
import { expect, test } from 'vitest'
import { symmetricEigen } from '@/lib/stats/algebra/symmetric-eigen'

const square = fc.integer({ min: 1, max: 7 }).chain((size) =>
  fc
    .array(fc.double({ min: -5, max: 5, noNaN: true }), { minLength: size * size, maxLength: size * size })
    .map((list) => ({
      size,
      matrix: Float64Array.from(list, (_, i) => {
        const [a, b] = [Math.floor(i / size), i % size]
        return (list[Math.min(a, b) * size + Math.max(a, b)] ?? 0) + (a === b ? 1 : 0)
      }),
    })),
)

test('each direction is only stretched, and the directions are at right angles', () => {
  fc.assert(
    fc.property(square, ({ size, matrix }) => {
      const { values, vectors } = symmetricEigen(matrix, size)
      for (let e = 0; e < size; e++) {
        for (let f = 0; f < size; f++) {
          let [image, dot] = [0, 0]
          for (let k = 0; k < size; k++) {
            image += (matrix[e * size + k] ?? 0) * (vectors[k * size + f] ?? 0)
            dot += (vectors[k * size + e] ?? 0) * (vectors[k * size + f] ?? 0)
          }
          expect(image).toBeCloseTo((values[f] ?? 0) * (vectors[e * size + f] ?? 0), 10)
          expect(dot).toBeCloseTo(e === f ? 1 : 0, 12)
        }
      }
    }),
  )
})

test('the small eigenvalue of a matrix with rows of very different size keeps its digits', () => {
  // [[1, 1e-7], [1e-7, 3e-14]]: determinant 2e-14, trace 1 + 3e-14, so the small root is 2e-14 to 14 digits
  const { values } = symmetricEigen(Float64Array.of(1, 1e-7, 1e-7, 3e-14), 2)
  expect(Math.abs(Math.min(...values) / 2e-14 - 1)).toBeLessThan(1e-13)
})

test('the matrix given stays as it is', () => {
  const matrix = Float64Array.of(2, 1, 1, 3)
  symmetricEigen(matrix, 2)
  expect([...matrix]).toEqual([2, 1, 1, 3])
})
