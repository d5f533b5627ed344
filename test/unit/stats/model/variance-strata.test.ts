import { expect, test } from 'vitest'
import { varianceStrata } from '@/lib/stats/model/variance-strata'

const design = (rows: readonly (readonly [taster: number, cup: number, score: number])[]) => ({
  rows: Float64Array.from(rows.flatMap(([, , score]) => [1, score])),
  width: 2,
  tasterOf: Int32Array.from(rows, ([taster]) => taster),
  cupOf: Int32Array.from(rows, ([, cup]) => cup),
})

test('one stratum within tasters and one for each number of scores, which sum to all scores', () => {
  const strata = varianceStrata(
    design([
      [0, 0, 1],
      [0, 1, 3],
      [1, 0, 2],
      [1, 1, 2],
      [2, 0, 9],
    ]),
    false,
  )
  expect(strata.map(({ count, structure }) => [count, structure[1]?.[0]])).toEqual([
    [2, 0],
    [1, 1],
    [2, 2],
  ])
  // squares within tasters: (1 − 2)² + (3 − 2)² + 0
  expect(strata[0]?.products[0]?.[3]).toBeCloseTo(2, 12)
})

test('equal repeats keep every stratum at size one, unequal ones need a larger block', () => {
  const equal = varianceStrata(
    design([
      [0, 0, 1],
      [0, 0, 2],
      [0, 1, 3],
      [0, 1, 5],
    ]),
    true,
  )
  expect(equal.every(({ size }) => size === 1)).toBe(true)
  expect(equal.reduce((sum, { count, size }) => sum + count * size, 0)).toBe(4)
  const unequal = varianceStrata(
    design([
      [0, 0, 1],
      [0, 0, 2],
      [0, 1, 3],
    ]),
    true,
  )
  expect(unequal.map(({ size }) => size)).toContain(2)
  expect(unequal.reduce((sum, { count, size }) => sum + count * size, 0)).toBe(3)
})

test('no scores and torn rows are refused', () => {
  expect(() => varianceStrata(design([]), false)).toThrow(/got 0/)
  expect(() => varianceStrata({ ...design([[0, 0, 1]]), width: 3 }, false)).toThrow(RangeError)
})
