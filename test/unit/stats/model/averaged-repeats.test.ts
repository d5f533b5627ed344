import { expect, test } from 'vitest'
import { averagedRepeats } from '@/lib/stats/model/averaged-repeats'

const design = {
  rows: Float64Array.of(1, 4, 1, 6, 1, 9, 1, 2),
  width: 2,
  tasterOf: Int32Array.of(0, 0, 0, 1),
  cupOf: Int32Array.of(0, 0, 1, 1),
}

test('one row per taster and cup holds the means', () => {
  const { rows, tasterOf, cupOf } = averagedRepeats(design, () => 0)
  expect([...rows]).toEqual([1, 5, 1, 9, 1, 2])
  expect([...tasterOf]).toEqual([0, 0, 1])
  expect([...cupOf]).toEqual([0, 1, 1])
})

test('another key keeps rows apart', () => {
  expect([...averagedRepeats(design, (row) => row).rows]).toEqual([...design.rows])
})
