/** The rows of a database file, read with plain better-sqlite3: nothing of ours in between. */
import Database from 'better-sqlite3'

export type Row = Readonly<Record<string, unknown>>
export type Rows = ReadonlyMap<string, readonly Row[]>

/** Every row of every table, without the history of migrations. */
export function dump(file: string): Rows {
  const db = new Database(file, { readonly: true })
  const tables = db
    .prepare<[], { name: string }>(
      `SELECT name FROM sqlite_master
       WHERE type = 'table' AND name NOT LIKE 'sqlite_%' AND name <> '_prisma_migrations' ORDER BY name`,
    )
    .all()
  const rows = new Map(tables.map(({ name }) => [name, db.prepare<[], Row>(`SELECT * FROM "${name}"`).all()]))
  db.close()
  return rows
}

const keyOf = (row: Row) => String(row['id'] ?? row['email'])

/** What a later schema has no column for, and why nothing is lost with it. */
const GIVEN_UP: Readonly<Record<string, readonly string[]>> = {
  // Which generation of sessions was good: an upgrade asks everybody to sign in again.
  User: ['sessionVersion'],
}

/** The rows of a later dump with no more columns than the earlier one knew, in its order. */
export function asBefore(before: Rows, after: Rows): Rows {
  return new Map(
    [...before].map(([table, rows]) => {
      const now = new Map((after.get(table) ?? []).map((row) => [keyOf(row), row]))
      const kept = rows.map((row) => {
        const found = now.get(keyOf(row)) ?? {}
        const given = GIVEN_UP[table] ?? []
        return Object.fromEntries(
          Object.entries(row).map(([column, was]) => [
            column,
            given.includes(column) && !(column in found) ? was : found[column],
          ]),
        )
      })
      return [table, kept]
    }),
  )
}

/** Every value of every table as its kind and its bytes, in the order of the rows: two dumps are equal when nothing differs. */
export function exactDump(file: string): ReadonlyMap<string, readonly string[]> {
  const db = new Database(file, { readonly: true })
  const found = new Map<string, readonly string[]>()
  for (const table of dump(file).keys()) {
    const columns = db.prepare<[string], { name: string }>('SELECT name FROM pragma_table_info(?)').all(table)
    const exact = columns.map(
      ({ name }) => `'${name}', typeof("${name}"), quote("${name}"), hex(CAST("${name}" AS BLOB))`,
    )
    const rows = db
      .prepare<[]>(`SELECT ${exact.join(', ')} FROM "${table}" ORDER BY rowid`)
      .raw()
      .all()
    found.set(
      table,
      rows.map((row) => JSON.stringify(row)),
    )
  }
  db.close()
  return found
}
