import fc from 'fast-check'
import { expect, test } from 'vitest'
import { agreement, icc } from '@/lib/stats/liking/agreement'

const rowsOf = (table: readonly (readonly (number | null)[])[]) =>
  table.flatMap((row, i) => row.map((score, j) => ({ taster: `t${i}`, cup: `c${j}`, score })))

test('nothing turns into NaN, and p lies between 0 and 1', () => {
  const table = fc.array(fc.array(fc.integer({ min: 1, max: 4 }), { minLength: 3, maxLength: 3 }), { maxLength: 5 })
  fc.assert(
    fc.property(table, (scores) => {
      const text = JSON.stringify(agreement(rowsOf(scores), { level: 0.9 }), (_, x: unknown) => {
        if (typeof x === 'number') expect(Number.isFinite(x)).toBe(true)
        return x
      })
      expect(text).toContain('ICC(2,k)')
      for (const { p } of icc(scores, 0.9)) expect(p === null || (p >= 0 && p <= 1)).toBe(true)
    }),
  )
})

test('tasters who agree to the last digit have coefficients of 1 and no F', () => {
  const six = icc(
    [
      [1, 4, 6],
      [1, 4, 6],
    ],
    0.95,
  )
  expect(six.map(({ estimate }) => estimate)).toEqual([1, 1, 1, 1, 1, 1])
  expect(six.every(({ F, p, interval }) => F === null && p === null && interval === null)).toBe(true)
})

test('a shift of one taster leaves type 3 alone and lowers type 2', () => {
  const table = [
    [3, 5, 8],
    [4, 5, 9],
    [2, 6, 7],
  ]
  const shifted = table.map((row, i) => (i === 0 ? row.map((x) => x + 3) : row))
  const [, two, three] = icc(table, 0.95)
  const [, twoAfter, threeAfter] = icc(shifted, 0.95)
  expect(threeAfter?.estimate ?? 0).toBeCloseTo(three?.estimate ?? 1, 12)
  expect(twoAfter?.estimate ?? 1).toBeLessThan(two?.estimate ?? 0)
})

test('who missed a cup is left out, counted and noted; row order is nothing', () => {
  const rows = rowsOf([
    [1, 2, 3],
    [2, 2, 5],
    [1, null, 4],
  ])
  const answer = agreement(rows, { level: 0.95 })
  expect(answer.counts).toEqual({ tasters: 2, cups: 3, scores: 8, missing: 1 })
  expect(answer.notes[0]).toContain('1 of 3 tasters')
  expect(agreement(rows.toReversed(), { level: 0.95 })).toEqual(answer)
})

test('one taster, or nobody, is an answer with a note', () => {
  const [only] = agreement(rowsOf([[1, 2, 3]]), { level: 0.95 }).tasters
  expect(only).toEqual({ taster: 't0', correlationWithOthers: null, sd: 1, F: null })
  expect(agreement([], { level: 0.95 })).toMatchObject({ kendallW: null, tasters: [] })
})
