import { demand } from '@/lib/base/demand'
import { lost } from '@/lib/base/lost'
import { byLabel } from './label-order'

/** One reading of one taster on one cup; null is a gap. */
export interface TasterReading {
  readonly taster: string
  readonly cup: string
  readonly value: number | null
}

export interface TasterTable {
  /** in label order; only those with at least one reading */
  readonly tasters: readonly string[]
  readonly cups: readonly string[]
  /** tasters × cups, each with all its readings sorted upwards, so that the order of rows changes no last digit */
  readonly cells: readonly (readonly (readonly number[])[])[]
  /** readings that are there */
  readonly readings: number
  /** rows without one */
  readonly missing: number
  /** labels that occur, but never with a reading */
  readonly emptyTasters: readonly string[]
  readonly emptyCups: readonly string[]
}

/**
 * Which taster gave which cup what?
 *
 * @param rows  one per reading, any order; repeats of a taster and cup are kept
 * @throws RangeError  a reading that is not finite
 *
 * Checked  test/unit/stats/taster-table.test.ts
 */
export function tasterTable(rows: readonly TasterReading[]): TasterTable {
  const filled = rows.filter((row): row is TasterReading & { value: number } => row.value !== null)
  for (const row of filled) {
    demand(Number.isFinite(row.value), `taster ${row.taster}, cup ${row.cup}: not a finite number, got ${row.value}`)
  }
  const tasters = labels(filled.map((row) => row.taster))
  const cups = labels(filled.map((row) => row.cup))
  const tasterAt = new Map(tasters.map((label, at) => [label, at]))
  const cupAt = new Map(cups.map((label, at) => [label, at]))
  const cells = tasters.map(() => cups.map((): number[] => []))
  for (const row of filled) {
    const own = cells[tasterAt.get(row.taster) ?? lost()] ?? lost()
    ;(own[cupAt.get(row.cup) ?? lost()] ?? lost()).push(row.value)
  }
  for (const cell of cells.flat()) cell.sort((a, b) => a - b)
  return {
    tasters,
    cups,
    cells,
    readings: filled.length,
    missing: rows.length - filled.length,
    emptyTasters: labels(rows.map((row) => row.taster)).filter((label) => !tasterAt.has(label)),
    emptyCups: labels(rows.map((row) => row.cup)).filter((label) => !cupAt.has(label)),
  }
}

/** Every label once, in label order. */
export function labels(list: readonly string[]): string[] {
  return [...new Set(list)].sort(byLabel)
}

/** Every pair of places below n, the first before the second. */
export function pairsBelow(n: number): [number, number][] {
  return Array.from({ length: n }, (_, a) =>
    Array.from({ length: n - a - 1 }, (_, b): [number, number] => [a, a + b + 1]),
  ).flat()
}
