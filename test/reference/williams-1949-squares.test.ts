/**
 * Serving orders in which every cup follows every other equally often.
 * Printed   Williams (1949), Aust. J. Sci. Res. A 2(2), 149–168; MacFie et al. (1989), J. Sensory Stud. 4, 129–148:
 *           the square of four is 0132 / 1203 / 2310 / 3021; squares of 3, 5 and 7 need their mirror images.
 * Data      data/designs.json (made and counted with R 4.2.2); integers, so no tolerance
 */
import { describe, expect, test } from 'vitest'
import { servingOrders } from '@/lib/panel/order'
import { familyOf, williamsRow } from '@/lib/panel/williams'
import designs from './data/designs.json'

const lines = (rows: readonly (readonly number[])[]) => rows.map((row) => row.join(' ')).toSorted()

describe.each(designs.values.williams)('the design for $t cups', ({ t, sequences, square, each_pair }) => {
  if (square)
    test('has the published rows', () => {
      const row = williamsRow(t)
      const { square: rows, mirror } = familyOf(row, row, t % 2 === 1)
      const fromOne = [...rows, ...mirror].map((cups) => cups.map((cup) => cup + 1))
      expect(lines(fromOne)).toEqual(lines(square ?? []))
    })

  test('has the published number of rows, and each cup follows each other that often', () => {
    const { followCounts } = servingOrders({ cups: t, tasters: sequences, seed: 1 })
    for (const [a, counts] of followCounts.entries()) {
      expect(counts).toEqual(counts.map((_, b) => (a === b ? 0 : each_pair)))
    }
  })
})
