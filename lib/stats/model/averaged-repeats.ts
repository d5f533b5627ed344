import { lost } from '@/lib/base/lost'
import type { DesignRows } from './variance-strata'

/**
 * What remains when a taster's scores with the same key are averaged into one?
 *
 * @param design  n rows, sorted by taster and then cup
 * @param keyOf   the cell of a row beside its taster and cup (its session, say); rows of one cell stand together
 * @returns one row per cell holding the means of every column
 *
 * Checked  test/unit/stats/model/averaged-repeats.test.ts
 * Limits   averages over different numbers of scores are then treated alike.
 */
export function averagedRepeats<Design extends DesignRows>(design: Design, keyOf: (row: number) => number): Design {
  const { rows, width, tasterOf, cupOf } = design
  const starts: number[] = []
  for (let row = 0; row < tasterOf.length; row++) {
    const before = row - 1
    const same = row > 0 && tasterOf[row] === tasterOf[before] && cupOf[row] === cupOf[before]
    if (!same || keyOf(row) !== keyOf(before)) starts.push(row)
  }
  const averaged = new Float64Array(starts.length * width)
  starts.forEach((start, cell) => {
    const end = starts[cell + 1] ?? tasterOf.length
    for (let row = start; row < end; row++) {
      for (let j = 0; j < width; j++) {
        averaged[cell * width + j] = (averaged[cell * width + j] ?? lost()) + (rows[row * width + j] ?? lost())
      }
    }
    for (let j = 0; j < width; j++) {
      averaged[cell * width + j] = (averaged[cell * width + j] ?? lost()) / (end - start)
    }
  })
  return {
    ...design,
    rows: averaged,
    tasterOf: Int32Array.from(starts, (row) => tasterOf[row] ?? lost()),
    cupOf: Int32Array.from(starts, (row) => cupOf[row] ?? lost()),
  }
}
