import fc from 'fast-check'
import { expect, test } from 'vitest'
import { permutedColumnTail } from '@/lib/stats/permuted-columns'

test('two rows of 0 1: the sums lie apart in half of the four placings', () => {
  expect(
    permutedColumnTail([
      [0, 1],
      [0, 1],
    ]),
  ).toBe(0.5)
  expect(
    permutedColumnTail([
      [0, 1],
      [1, 0],
    ]),
  ).toBe(1)
})

test('rows that no order changes add nothing', () => {
  expect(
    permutedColumnTail([
      [0, 1],
      [0, 1],
      [4, 4],
    ]),
  ).toBe(0.5)
  expect(permutedColumnTail([[1, 1, 1]])).toBe(1)
  expect(permutedColumnTail([])).toBe(1)
})

test('the order of rows and columns changes no digit', () => {
  const rows = [
    [0, 2, 4, 1],
    [3, 3, 0, 1],
    [0, 0, 1, 5],
    [1, 2, 3, 4],
  ]
  expect(permutedColumnTail(rows.toReversed().map((row) => row.toReversed()))).toBe(permutedColumnTail(rows))
})

test('numbers that are not whole and rows of unequal length are refused by value', () => {
  expect(() => permutedColumnTail([[0.5, 1]])).toThrow('got 0.5')
  expect(() => permutedColumnTail([[0, 1], [1]])).toThrow('got 1')
})

/** By the definition: every order of every row, each as likely as any other. */
function byEnumeration(rows: readonly (readonly number[])[]): number {
  const orders = (row: readonly number[]): number[][] =>
    row.length < 2 ? [[...row]] : row.flatMap((x, i) => orders(row.toSpliced(i, 1)).map((rest) => [x, ...rest]))
  const squares = (sums: readonly number[]): number => sums.reduce((total, sum) => total + sum * sum, 0)
  const add = (a: readonly number[], b: readonly number[]): number[] => a.map((x, j) => x + (b[j] ?? 0))
  const nothing = rows[0]?.map(() => 0) ?? []
  const seen = squares(rows.reduce(add, nothing))
  const all = rows.reduce<number[][]>((sums, row) => orders(row).flatMap((o) => sums.map((s) => add(s, o))), [nothing])
  return all.filter((sums) => squares(sums) >= seen).length / all.length
}

test('what is decided early is decided as counting everything decides it', () => {
  const row = (most: number) => fc.array(fc.integer({ min: 0, max: most }), { minLength: 3, maxLength: 3 })
  const ranks = fc.shuffledSubarray([1, 2, 3], { minLength: 3, maxLength: 3 })
  fc.assert(
    fc.property(
      fc.oneof(...[row(1), row(4), ranks].map((one) => fc.array(one, { minLength: 2, maxLength: 6 }))),
      (rows) => {
        expect(permutedColumnTail(rows)).toBeCloseTo(byEnumeration(rows), 12)
      },
    ),
    { numRuns: 150 },
  )
})

test('an allowance of steps that does not suffice gives no number', () => {
  const rows = Array.from({ length: 12 }, (_, i) => [0, 1, 2, 3].map((x) => (x + i) % 4))
  expect(permutedColumnTail(rows)).toBeCloseTo(1, 12)
  expect(permutedColumnTail(rows, 100)).toBeNull()
})
