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
