import type { Row } from './read-table'

/** Complains, with the line, where the same thing is answered a second time. */
export function checkOnce(rows: readonly Row[], part: string, keyOf: (row: Row) => readonly string[] | null): void {
  const seen = new Map<string, number>()
  for (const row of rows) {
    const key = keyOf(row)
    if (!key) continue
    const name = JSON.stringify(key)
    const first = seen.get(name)
    if (first !== undefined) throw row.complain(part, `${key.join(', ')} is answered in line ${first} already`)
    seen.set(name, row.line)
  }
}
