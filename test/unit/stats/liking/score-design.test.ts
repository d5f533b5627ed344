import { expect, test } from 'vitest'
import { scoreDesign } from '@/lib/stats/liking/score-design'
import { scoreTable } from '@/lib/stats/liking/score-table'

const rows = ['A', 'B', 'C'].map((cup, i) => ({
  taster: 't',
  cup,
  score: 5 + i,
  position: i + 1,
  session: i < 2 ? 'a' : 'b',
}))

test('treatment coding: intercept, cups, sessions, then the score less its centre', () => {
  const design = scoreDesign(scoreTable(rows, true), { position: false, carryOver: false })
  expect(design.width).toBe(5)
  expect([...design.rows]).toEqual([1, 0, 0, 0, -1, 1, 1, 0, 0, 0, 1, 0, 1, 1, 1])
})

test('the cup before sums to zero: −1 throughout after the first cup, 0 where none came before', () => {
  const design = scoreDesign(scoreTable(rows, false), { position: true, carryOver: true })
  const before = [0, 1, 2].map((row) => {
    const from = row * design.width + design.from.previous
    return [...design.rows.slice(from, from + 2)]
  })
  expect(before).toEqual([
    [0, 0],
    [-1, -1],
    [1, 0],
  ])
})

test('servings of unknown position are left out of the order terms only', () => {
  const table = scoreTable([...rows, { taster: 't', cup: 'A', score: 4, position: null, session: 'a' }], false)
  expect(scoreDesign(table, { position: false, carryOver: false }).tasterOf).toHaveLength(4)
  expect(scoreDesign(table, { position: true, carryOver: false }).tasterOf).toHaveLength(3)
})
