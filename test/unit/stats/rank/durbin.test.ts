import { expect, test } from 'vitest'
import { durbin } from '@/lib/stats/rank/durbin'
import { friedman, friedmanExact } from '@/lib/stats/rank/friedman'

const plan = [
  [1, 2, 3, null],
  [2, 1, null, 3],
  [1, null, 2, 3],
  [null, 1, 2, 3],
  [1, 2, null, 3],
]

test('with every cup ranked by everybody it is Friedman’s test', () => {
  const table = [
    [1, 2, 3],
    [2, 1, 3],
    [1, 3, 2],
    [1, 2, 3],
  ]
  const complete = durbin(table)
  expect(complete.chiSquared ?? 0).toBeCloseTo(friedman(table).chiSquared ?? NaN, 12)
  expect(complete.pExact ?? 0).toBeCloseTo(friedmanExact(table) ?? NaN, 12)
})

test('renaming and reordering change no number', () => {
  const { chiSquared, F, pExact } = durbin(plan)
  const turned = durbin(plan.toReversed().map((row) => row.toReversed()))
  expect(turned.pExact).toBe(pExact)
  expect(turned.chiSquared ?? 0).toBeCloseTo(chiSquared ?? NaN, 10)
  expect(turned.F ?? 0).toBeCloseTo(F ?? NaN, 10)
})

test('too many orders are drawn, the same ones under other names, near the counted p', () => {
  const many = [...plan, ...plan, plan[0] ?? []]
  const drawn = durbin(many)
  expect(drawn.counted).toBe(false)
  expect(durbin(many.toReversed().map((row) => row.toReversed())).pExact).toBe(drawn.pExact)
  expect(drawn.pExact).toBeGreaterThan(0)
  expect(Math.abs((drawn.pExact ?? 0) - (drawn.p ?? 0))).toBeLessThan(0.05)
})

test('tasters who tie everything leave nothing to test', () => {
  expect(
    durbin([
      [1, 1, null],
      [null, 2, 2],
      [3, null, 3],
    ]),
  ).toMatchObject({ chiSquared: null, p: null, F: null, pExact: null })
})

test('without degrees of freedom there is no F', () => {
  expect(
    durbin([
      [1, 2, null],
      [null, 1, 2],
      [2, null, 1],
    ]),
  ).toMatchObject({ df2: 1 })
  expect(
    durbin([
      [1, 2, null],
      [null, 1, 2],
    ]),
  ).toMatchObject({ df2: 0, F: null, pF: null })
})
