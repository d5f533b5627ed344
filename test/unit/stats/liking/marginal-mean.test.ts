import { expect, test } from 'vitest'
import { cupDifference, factorContrasts, marginalMean } from '@/lib/stats/liking/marginal-mean'
import { scoreDesign } from '@/lib/stats/liking/score-design'
import { scoreTable } from '@/lib/stats/liking/score-table'

const rows = ['A', 'B', 'C'].flatMap((cup, i) =>
  ['x', 'y'].map((session) => ({ taster: 't', cup, session, score: 5 + i, position: i + 1 })),
)
const design = scoreDesign(scoreTable(rows, true), { position: false, carryOver: false })
const alone = scoreDesign(scoreTable(rows, false), { position: false, carryOver: false })

test('a marginal mean counts every session equally', () => {
  // intercept, cups B and C, session y
  expect([...marginalMean(design, 'cup', 0)]).toEqual([1, 0, 0, 0.5])
  expect([...marginalMean(design, 'cup', 2)]).toEqual([1, 0, 1, 0.5])
})

test('a difference is a less b, the base with no column of its own', () => {
  expect([...cupDifference(design, 0, 2)]).toEqual([0, 0, -1, 0])
  expect([...cupDifference(design, 2, 1)]).toEqual([0, -1, 1, 0])
})

test('beside other factors a factor is tested level against base', () => {
  expect(factorContrasts(design, new Float64Array(16), 'cup').map((row) => [...row])).toEqual([
    [0, 1, 0, 0],
    [0, 0, 1, 0],
  ])
})

test('a factor alone is tested by the rows that eliminating XᵀX leaves', () => {
  // XᵀX of three cups twice each: [[6,2,2],[2,2,0],[2,0,2]]; row 2 after elimination (0, 4/3, −2/3) over its pivot
  const rowsOf = factorContrasts(alone, Float64Array.of(6, 2, 2, 2, 2, 0, 2, 0, 2), 'cup').map((row) => [...row])
  expect(rowsOf[0]?.[1]).toBeCloseTo(1, 12)
  expect(rowsOf[0]?.[2]).toBeCloseTo(-0.5, 12)
  expect(rowsOf[1]).toEqual([0, 0, 1])
})
