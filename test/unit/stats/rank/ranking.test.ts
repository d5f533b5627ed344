import fc from 'fast-check'
import { expect, test } from 'vitest'
import { UnusableReadings } from '@/lib/stats/outcome'
import { ranking } from '@/lib/stats/rank/ranking'

const rowsOf = (table: readonly (readonly (number | null)[])[], cups = ['A', 'B', 'C', 'D']) =>
  table.flatMap((row, i) => row.map((rank, j) => ({ taster: `t${i}`, cup: cups[j] ?? '', rank })))
const table = [
  [1, 2, 3, 4],
  [2, 1, 4, 3],
  [1, 3, 2, 4],
  [4, 1, 2, 3],
  [2, 3, 1, 4],
]

test('a complete panel: every key, Friedman and no Durbin', () => {
  const answer = ranking(rowsOf(table), { level: 0.95, order: ['A', 'B', 'C', 'D'] })
  expect(answer.counts).toEqual({ tasters: 5, cups: 4, ranks: 20, missing: 0 })
  expect(answer.cups[0]).toEqual({ cup: 'A', rankSum: 10, meanRank: 2, firsts: 2 })
  expect(answer).not.toHaveProperty('durbin')
  expect(answer.page?.L).toBe(10 + 2 * 10 + 3 * 12 + 4 * 18)
  expect(answer.worth).toHaveLength(4)
  expect(answer.pairs).toHaveLength(6)
})

test('row order changes nothing, and other names only the names', () => {
  const answer = ranking(rowsOf(table), { level: 0.95 })
  expect(ranking(rowsOf(table).toReversed(), { level: 0.95 })).toEqual(answer)
  const renamed = ranking(rowsOf(table, ['Z', 'Y', 'X', 'W']), { level: 0.95 })
  expect(renamed.friedman?.pExact).toBe(answer.friedman?.pExact)
  expect(renamed.cups.find(({ cup }) => cup === 'Z')?.rankSum).toBe(10)
})

test('a missing rank calls for Durbin’s test', () => {
  const answer = ranking(rowsOf([...table, [1, 2, 3, null]]), { level: 0.95, order: ['A', 'B', 'C', 'D'] })
  expect(answer).toMatchObject({ friedman: null, page: null, leastSignificantDifference: null, counts: { missing: 1 } })
  expect(answer.durbin?.df).toBe(3)
  expect(answer.notes.join()).toContain('Durbin')
})

test('ties take the worths away, with a note', () => {
  const answer = ranking(rowsOf([[1.5, 1.5, 3, 4], ...table]), { level: 0.95 })
  expect(answer.worth).toBeNull()
  expect(answer.notes).toContain('ranks are tied: no worths')
})

test('ranks that were not midranks are made so, with a note', () => {
  const answer = ranking(rowsOf([[1, 1, 3, 4], ...table]), { level: 0.95 })
  expect(answer.cups[0]?.rankSum).toBe(11.5)
  expect(answer.notes.join()).toContain('ranked anew')
})

test('what cannot be used is refused with the words that say why', () => {
  const ask = (rows: Parameters<typeof ranking>[0], order?: string[]) => () =>
    ranking(rows, { level: 0.95, ...(order && { order }) })
  const rows = rowsOf(table)
  expect(ask([])).toThrow(UnusableReadings)
  expect(ask([...rows, { taster: 't0', cup: 'A', rank: 2 }])).toThrow('taster t0 ranks cup A 2 times')
  expect(ask(rows, ['A', 'B', 'C', 'E'])).toThrow('no cup is called E')
  expect(ask(rows, ['A', 'B', 'C'])).toThrow('leaves out D')
  expect(ask(rows, ['A', 'B', 'C', 'D', 'D'])).toThrow('twice')
  expect(
    ask(
      rowsOf([
        [1, 2, null, null],
        [null, null, 1, 2],
      ]),
    ),
  ).toThrow('A, B | C, D')
  expect(() => ranking(rows, { level: 95 })).toThrow('got 95')
})

test('one cup, one taster, or all tied is an answer with a note', () => {
  expect(ranking([{ taster: 'x', cup: 'A', rank: 1 }], { level: 0.95 })).toMatchObject({
    pairs: [],
    worth: null,
    leastSignificantDifference: null,
  })
  expect(ranking(rowsOf([[2, 2, 2, 2]].map((row) => row.map(() => 2.5))), { level: 0.95 }).friedman).toMatchObject({
    p: null,
    pExact: null,
  })
})

test('no number is ever NaN or infinite', () => {
  const cell = fc.option(fc.integer({ min: 1, max: 3 }), { nil: null, freq: 8 })
  fc.assert(
    fc.property(fc.array(fc.tuple(cell, cell, cell), { minLength: 1, maxLength: 4 }), (cells) => {
      let answer
      try {
        answer = ranking(rowsOf(cells), { level: 0.9 })
      } catch (refusal) {
        expect(refusal).toBeInstanceOf(UnusableReadings)
        return
      }
      JSON.stringify(answer, (key, x: unknown) => {
        if (typeof x === 'number') expect(Number.isFinite(x), key).toBe(true)
        if (typeof x === 'number' && /^p([A-Z]|$)/.test(key)) expect(x >= 0 && x <= 1).toBe(true)
        return x
      })
    }),
  )
})
