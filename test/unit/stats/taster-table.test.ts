import { expect, test } from 'vitest'
import { labels, pairsBelow, tasterTable } from '@/lib/stats/taster-table'

const rows = [
  { taster: 't10', cup: 'cup 10', value: 3 },
  { taster: 't2', cup: 'cup 2', value: 5 },
  { taster: 't2', cup: 'cup 10', value: null },
  { taster: 't2', cup: 'cup 2', value: 1 },
  { taster: 't3', cup: 'cup 3', value: null },
]

test('labels stand in natural order, repeats are kept, gaps are counted and named', () => {
  expect(tasterTable(Object.freeze(rows))).toEqual({
    tasters: ['t2', 't10'],
    cups: ['cup 2', 'cup 10'],
    cells: [
      [[1, 5], []],
      [[], [3]],
    ],
    readings: 3,
    missing: 2,
    emptyTasters: ['t3'],
    emptyCups: ['cup 3'],
  })
})

test('the order of rows changes nothing', () => {
  expect(tasterTable(rows.toReversed())).toEqual(tasterTable(rows))
})

test('a reading that is not finite is refused with its place', () => {
  expect(() => tasterTable([{ taster: 'x', cup: 'y', value: NaN }])).toThrow('taster x, cup y')
})

test('pairs and labels', () => {
  expect(pairsBelow(3)).toEqual([
    [0, 1],
    [0, 2],
    [1, 2],
  ])
  expect(labels(['b', 'a', 'b'])).toEqual(['a', 'b'])
})
