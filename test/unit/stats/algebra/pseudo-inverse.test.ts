import fc from 'fast-check'
import { expect, test } from 'vitest'
import { pseudoInverse } from '@/lib/stats/algebra/pseudo-inverse'

test('M M⁺ M = M for matrices that leave a direction out', () => {
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: 0.1, max: 5, noNaN: true }), { minLength: 3, maxLength: 3 }),
      ([a = 1, b = 1, c = 1]) => {
        const M = [
          [a + b, -a, -b],
          [-a, a + c, -c],
          [-b, -c, b + c],
        ]
        const { inverse, rank } = pseudoInverse(M)
        expect(rank).toBe(2)
        const times = (x: readonly (readonly number[])[], y: readonly (readonly number[])[]) =>
          x.map((row) => row.map((_, j) => row.reduce((sum, value, k) => sum + value * (y[k]?.[j] ?? 0), 0)))
        times(times(M, inverse), M).forEach((row, i) =>
          row.forEach((x, j) => expect(x).toBeCloseTo(M[i]?.[j] ?? NaN, 9)),
        )
      },
    ),
  )
})

test('a matrix of zeros has rank 0', () => {
  expect(
    pseudoInverse([
      [0, 0],
      [0, 0],
    ]),
  ).toEqual({
    inverse: [
      [0, 0],
      [0, 0],
    ],
    rank: 0,
  })
})
