import { expect, test } from 'vitest'
import { scoreTable } from '@/lib/stats/liking/score-table'

const row = (taster: string, cup: string, score: number | null, more = {}) => ({ taster, cup, score, ...more })

test('empty scores are counted, never zero; a cup without any is named', () => {
  const table = scoreTable([row('t', 'A', 5), row('t', 'B', null), row('u', 'A', 7)], false)
  expect(table.missing).toBe(1)
  expect(table.neverScored).toEqual(['B'])
  expect([...table.score].map((score) => score + table.centre)).toEqual([5, 7])
})

test('cups stand in label order, rows in the order of content whatever the order given', () => {
  const rows = [row('t', 'cup 10', 5), row('t', 'cup 2', 6), row('u', 'cup 2', 4), row('u', 'cup 10', 8)]
  const table = scoreTable(rows, false)
  expect(table.cups).toEqual(['cup 2', 'cup 10'])
  const turned = scoreTable(rows.toReversed(), false)
  expect([turned.score, turned.cupOf, turned.tasterOf]).toEqual([table.score, table.cupOf, table.tasterOf])
})

test('rows without a session are left out and counted where sessions matter', () => {
  const rows = [row('t', 'A', 5, { session: 'Monday' }), row('t', 'A', 6, { session: null })]
  expect(scoreTable(rows, true)).toMatchObject({ withoutSession: 1, sessions: ['Monday'] })
})

test('no score at all, and scores that are no numbers, are refused with the value', () => {
  expect(() => scoreTable([row('t', 'A', null)], false)).toThrow(/1 of them empty/)
  expect(() => scoreTable([row('t', 'A', NaN)], false)).toThrow(/NaN/)
  expect(() => scoreTable([row('t', 'A', 5, { position: Infinity })], false)).toThrow(/Infinity/)
})
