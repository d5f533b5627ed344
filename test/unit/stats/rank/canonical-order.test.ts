import fc from 'fast-check'
import { expect, test } from 'vitest'
import { canonicalOrder } from '@/lib/stats/rank/canonical-order'

type Table = readonly (readonly (number | null)[])[]

const along = (table: Table) => {
  const { tasters, cups } = canonicalOrder(table)
  return tasters.map((i) => cups.map((j) => table[i]?.[j] ?? null))
}

test('tables that differ by names only come out the same', () => {
  const rank = fc.option(fc.integer({ min: 1, max: 3 }), { nil: null })
  fc.assert(
    fc.property(
      fc.array(fc.tuple(rank, rank, rank, rank), { minLength: 2, maxLength: 6 }),
      fc.integer({ min: 1, max: 3 }),
      (table, turn) => {
        const renamed = [...table.slice(turn), ...table.slice(0, turn)].map((row) => [
          ...row.slice(turn),
          ...row.slice(0, turn),
        ])
        expect(along(renamed)).toEqual(along(table))
      },
    ),
  )
})

test('cups that cannot be told apart may stand either way', () => {
  expect(
    along([
      [1, 2],
      [2, 1],
    ]),
  ).toEqual(
    along([
      [2, 1],
      [1, 2],
    ]),
  )
})
