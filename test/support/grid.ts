import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'

/** The rows of one checked-in grid of reference values, as numbers; columns parted by tabs or blanks. */
export function readGrid(name: string): number[][] {
  const path = fileURLToPath(new URL(`../reference/data/distributions/${name}`, import.meta.url))
  return readFileSync(path, 'utf8')
    .trim()
    .split('\n')
    .map((line) => line.trim().split(/\s+/).map(Number))
}

/** How far a value lies from the reference, as a share of the reference; both below `floor` counts as no distance. */
export function relativeError(value: number, reference: number, floor = 1e-300): number {
  if (value === reference || (Math.abs(value) < floor && Math.abs(reference) < floor)) return 0
  return Math.abs(value - reference) / Math.abs(reference)
}

/** The row of a grid that fares worst under `error`, for a message that names it. */
export function worstRow(
  rows: readonly number[][],
  error: (row: readonly number[]) => number,
): { error: number; row: string } {
  let worst = { error: 0, row: 'none' }
  for (const row of rows) {
    const e = error(row)
    if (!(e <= worst.error)) worst = { error: e, row: row.join(' ') }
  }
  return worst
}
