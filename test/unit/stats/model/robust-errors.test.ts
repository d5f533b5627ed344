import fc from 'fast-check'
import { expect, test } from 'vitest'
import { robustErrors } from '@/lib/stats/model/robust-errors'

/** Two cups, one score of each taster for both: intercept and second cup less first. */
const twoCups = (scores: readonly (readonly [number, number])[]) => ({
  rows: Float64Array.from(scores.flatMap(([a, b]) => [1, 0, a, 1, 1, b])),
  width: 3,
  tasterOf: Int32Array.from(scores.flatMap((_, i) => [i, i])),
  cupOf: Int32Array.from(scores.flatMap(() => [0, 1])),
})
const meansOf = (scores: readonly (readonly [number, number])[]) => {
  const mean = (at: 0 | 1) => scores.reduce((sum, pair) => sum + pair[at], 0) / scores.length
  return Float64Array.of(mean(0), mean(1) - mean(0))
}

test('two cups: the spread of the tasters’ own differences over √n, on n − 1, whatever variances are believed', () => {
  const pair = fc.tuple(fc.integer({ min: 1, max: 9 }), fc.integer({ min: 1, max: 9 }))
  const variance = fc.double({ min: 0.01, max: 100, noNaN: true })
  fc.assert(
    fc.property(
      fc.array(pair, { minLength: 3, maxLength: 20 }),
      variance,
      variance,
      variance,
      (scores, residual, taster, tasterByCup) => {
        const n = scores.length
        const differences = scores.map(([a, b]) => b - a)
        const mean = differences.reduce((sum, d) => sum + d, 0) / n
        const squares = differences.reduce((sum, d) => sum + (d - mean) ** 2, 0)
        const errors = robustErrors(twoCups(scores), meansOf(scores), { residual, taster, tasterByCup })
        const got = errors?.(Float64Array.of(0, 1))
        expect(got?.se).toBeCloseTo(Math.sqrt(squares / (n - 1) / n), 9)
        expect(got?.df).toBeCloseTo(n - 1, 7)
      },
    ),
  )
})

test('a residual a millionth of the rest changes nothing in a complete panel', () => {
  // differences 1, 3, 2, 5: mean 11/4, squares 35/4, se √(35/4/3/4)
  const scores = [
    [1, 2],
    [9, 12],
    [4, 6],
    [2, 7],
  ] as const
  const errors = robustErrors(twoCups(scores), meansOf(scores), { residual: 1e-6, taster: 1, tasterByCup: 0 })
  const got = errors?.(Float64Array.of(0, 1))
  expect(got?.se).toBeCloseTo(Math.sqrt(35 / 48), 10)
  expect(got?.df).toBeCloseTo(3, 9)
})

test('columns that depend on one another have no errors', () => {
  const rows = Float64Array.of(1, 1, 5, 1, 1, 6)
  const design = { rows, width: 3, tasterOf: Int32Array.of(0, 1), cupOf: Int32Array.of(0, 0) }
  expect(robustErrors(design, Float64Array.of(5, 0), { residual: 1, taster: 0, tasterByCup: 0 })).toBeNull()
})

test('one taster leaves no degrees of freedom', () => {
  const scores = [[4, 6]] as const
  const errors = robustErrors(twoCups(scores), meansOf(scores), { residual: 1, taster: 1, tasterByCup: 0 })
  expect(errors?.(Float64Array.of(0, 1)).df).toBeNull()
})
