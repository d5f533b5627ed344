import { lost } from '@/lib/base/lost'
import type { ScoreTable } from './score-table'

/** Every taster's mean over repeats for every cup; NaN inside where there is none, never handed out. */
export interface TasterMeans {
  readonly tasters: number
  readonly cups: number
  /** tasters × cups row by row, less the table's centre */
  readonly means: Float64Array
  /** scores behind each mean, 0 where there is none */
  readonly counts: Int32Array
  /** taster–cup pairs with more than one score */
  readonly repeated: number
  /** every taster scored every cup */
  readonly complete: boolean
}

/**
 * What did each taster give each cup, over repeats?
 *
 * @returns means that differ by rounding only are made equal, so that ties stay ties
 *
 * Checked  test/unit/stats/liking/taster-means.test.ts
 */
export function tasterMeans(table: ScoreTable): TasterMeans {
  const tasters = table.tasters.length
  const cups = table.cups.length
  const means = new Float64Array(tasters * cups)
  const counts = new Int32Array(tasters * cups)
  table.score.forEach((score, row) => {
    const cell = (table.tasterOf[row] ?? lost()) * cups + (table.cupOf[row] ?? lost())
    means[cell] = (means[cell] ?? lost()) + score
    counts[cell] = (counts[cell] ?? lost()) + 1
  })
  let repeated = 0
  let complete = true
  counts.forEach((count, cell) => {
    if (count > 1) {
      repeated++
      means[cell] = (means[cell] ?? lost()) / count
    }
    if (count === 0) complete = false
  })
  return { tasters, cups, means, counts, repeated, complete }
}

/** @returns a's mean less b's for each taster who scored both; differences of a few rounding units count as none */
export function tasterDifferences({ tasters, cups, means, counts }: TasterMeans, a: number, b: number, grain: number) {
  const differences = new Float64Array(tasters)
  let n = 0
  for (let from = 0; from < tasters * cups; from += cups) {
    if (!counts[from + a] || !counts[from + b]) continue
    const difference = (means[from + a] ?? lost()) - (means[from + b] ?? lost())
    differences[n++] = Math.abs(difference) <= 4 * grain ? 0 : difference
  }
  return differences.slice(0, n)
}

/** @returns the means for one cup, over the tasters who scored it */
export function cupColumn({ tasters, cups, means, counts }: TasterMeans, cup: number): Float64Array {
  const column = new Float64Array(tasters)
  let n = 0
  for (let cell = cup; cell < tasters * cups; cell += cups) if (counts[cell]) column[n++] = means[cell] ?? lost()
  return column.slice(0, n)
}

/** @returns rows of tasters who scored every cup */
export function completeRows({ tasters, cups, means, counts }: TasterMeans): readonly (readonly number[])[] {
  const rows: number[][] = []
  for (let taster = 0; taster < tasters; taster++) {
    const [from, to] = [taster * cups, (taster + 1) * cups]
    if (counts.subarray(from, to).every((count) => count > 0)) rows.push([...means.subarray(from, to)])
  }
  return rows
}
