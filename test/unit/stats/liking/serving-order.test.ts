import { expect, test } from 'vitest'
import { servingOrder } from '@/lib/stats/liking/serving-order'

const cupAt = new Map([
  ['A', 0],
  ['B', 1],
  ['C', 2],
])
const row = (taster: string, cup: string, position: number | null, more = {}) => ({
  taster,
  cup,
  position,
  score: 5,
  ...more,
})

test('each serving knows the cup before it, in any order of rows', () => {
  const rows = [row('t', 'C', 3), row('t', 'A', 1), row('t', 'B', 2), row('u', 'B', 1)]
  const { previous, unclear } = servingOrder(rows, cupAt, false)
  expect(unclear).toBe(false)
  expect(rows.map((each) => previous.get(each))).toEqual([1, -1, 0, -1])
})

test('a cup poured but not scored still came before; a gap is passed over; no position, no order', () => {
  const rows = [row('t', 'A', 1, { score: null }), row('t', 'B', 4), row('t', 'C', null)]
  const { previous } = servingOrder(rows, cupAt, false)
  expect(rows.map((each) => previous.get(each))).toEqual([-1, 0, undefined])
})

test('a position held twice is told apart by replicate, else unclear', () => {
  const twice = [row('t', 'A', 1, { replicate: '1' }), row('t', 'B', 1, { replicate: '2' })]
  expect(servingOrder(twice, cupAt, false).unclear).toBe(false)
  expect(servingOrder([row('t', 'A', 1), row('t', 'B', 1)], cupAt, false).unclear).toBe(true)
})
