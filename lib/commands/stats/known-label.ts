import { Complaint, nearestOf } from './complaint'
import type { Table } from './read-table'

/** Complains where a cup named on the command line is in no row of the file. */
export function checkCups(table: Table, option: string, cups: readonly string[]): void {
  const known = [...new Set(table.rows.flatMap((row) => row.text('cup') ?? []))]
  for (const cup of cups) {
    if (!known.includes(cup)) {
      throw new Complaint(`${table.name}: --${option} '${cup}' is not a cup in the file${nearestOf(cup, known)}`)
    }
  }
}
