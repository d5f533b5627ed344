import 'server-only'
import Database from 'better-sqlite3'
import { demand } from '@/lib/base/demand'
import { isEmpty } from './file-care'
import { listMigrations, readMigration, withSchemaEngine } from './schema-engine'

// A database read and filled by its own tables and columns, whatever version of the schema it has: the generated client knows
// the newest alone. What leaves here is the same for every kind of database; this file knows how SQLite keeps it.

export type StoredType = 'text' | 'integer' | 'real' | 'boolean' | 'time' | 'bytes'

/** A value as it is kept: whole numbers as bigint, fractions as number, times as the text or number that stands there. */
export type Stored = null | boolean | bigint | number | string | Uint8Array

export interface StoredTable {
  readonly name: string
  readonly columns: readonly { readonly name: string; readonly type: StoredType }[]
}

export interface WholeFile {
  /** names of the migrations that are done, oldest first */
  readonly migrations: readonly string[]
  /** by name; without the history of migrations */
  readonly tables: readonly StoredTable[]
  /** values in the order of the columns; rows in the order in which they were written first */
  rows(table: StoredTable): Iterable<readonly Stored[]>
  close(): void
}

const PATIENCE_MS = 10_000

/**
 * Opens a database on a connection of its own, at one moment: what is committed later is not seen, and nobody waits for it.
 *
 * @throws  what findFault knows; RangeError when the file holds no database of ours
 */
export function readWholeFile(file: string): WholeFile {
  const db = new Database(file, { fileMustExist: true, timeout: PATIENCE_MS })
  try {
    db.pragma('query_only = ON')
    db.exec('BEGIN')
    const migrations = doneMigrations(db) // the first reading fixes the moment
    const begun: Iterator<unknown>[] = []
    return {
      migrations,
      tables: storedTables(db),
      rows: (table) => {
        const rows = rowsOf(db, table)
        begun.push(rows)
        return rows
      },
      close: () => {
        for (const rows of begun) rows.return?.() // a reading that was broken off would keep the file open
        db.close()
      },
    }
  } catch (error) {
    db.close()
    throw error
  }
}

/** Does the file hold tables? A database that cannot be read counts as one that does. */
export function holdsTables(file: string): boolean {
  let db: Database.Database | null = null
  try {
    db = new Database(file, { readonly: true, fileMustExist: true, timeout: PATIENCE_MS })
    return !isEmpty(db)
  } catch {
    return true
  } finally {
    db?.close()
  }
}

/** Makes an empty database of an earlier or the present version. @param migrations  the first so many, oldest first */
export async function laySchema(file: string, migrations: readonly string[]): Promise<void> {
  const known = listMigrations()
  demand(
    migrations.length > 0 && migrations.every((name, place) => name === known[place]),
    `these are not the first migrations: ${migrations.join(', ')}`,
  )
  await withSchemaEngine(file, (engine) => engine.apply(migrations.map(readMigration)))
}

export interface Filling {
  readonly tables: readonly StoredTable[]
  /** Adds one row, its values in the order of the columns. */
  add(table: StoredTable, values: readonly Stored[]): void
  /** How many rows point at nothing? */
  brokenLinks(): number
  /** Keeps what was added. */
  finish(): void
  /** Without finish: nothing was added. */
  close(): void
}

/** Fills a laid database that nobody else has open, in one transaction. It is not safe before its file was flushed. */
export function fillWholeFile(file: string): Filling {
  const db = new Database(file, { fileMustExist: true })
  db.pragma('foreign_keys = OFF') // a row may come before the one it points at
  db.pragma('synchronous = OFF')
  db.exec('BEGIN EXCLUSIVE')
  const adding = new Map<string, Database.Statement<unknown[]>>()
  return {
    tables: storedTables(db),
    add: (table, values) => {
      const statement = adding.get(table.name) ?? db.prepare<unknown[]>(insertInto(table))
      adding.set(table.name, statement)
      statement.run(values.map(toSqlite))
    },
    brokenLinks: () => db.prepare('SELECT 1 FROM pragma_foreign_key_check').all().length,
    finish: () => db.exec('COMMIT'),
    close: () => db.close(),
  }
}

function doneMigrations(db: Database.Database): readonly string[] {
  const hasTable = db.prepare(`SELECT 1 FROM sqlite_master WHERE name = '_prisma_migrations'`).get()
  demand(hasTable !== undefined, 'the file holds no house')
  return db
    .prepare<[], { name: string }>(
      `SELECT migration_name AS name FROM _prisma_migrations
       WHERE finished_at IS NOT NULL AND rolled_back_at IS NULL ORDER BY migration_name`,
    )
    .all()
    .map(({ name }) => name)
}

function storedTables(db: Database.Database): readonly StoredTable[] {
  return db
    .prepare<[], { name: string }>(
      `SELECT name FROM sqlite_master
       WHERE type = 'table' AND name NOT LIKE 'sqlite_%' AND name <> '_prisma_migrations' ORDER BY name`,
    )
    .all()
    .map(({ name }) => ({ name, columns: storedColumns(db, name) }))
}

function storedColumns(db: Database.Database, table: string): StoredTable['columns'] {
  return db
    .prepare<[string], { name: string; type: string }>('SELECT name, type FROM pragma_table_info(?) ORDER BY cid')
    .all(table)
    .map(({ name, type }) => ({ name, type: typeOf(type) }))
}

const TYPES: Readonly<Record<string, StoredType>> = {
  TEXT: 'text',
  INTEGER: 'integer',
  BIGINT: 'integer',
  REAL: 'real',
  BOOLEAN: 'boolean',
  DATETIME: 'time',
  BLOB: 'bytes',
}

function typeOf(declared: string): StoredType {
  const type = TYPES[declared.toUpperCase()]
  demand(type !== undefined, `a column of a type that nobody has told how to keep: ${declared}`)
  return type
}

function* rowsOf(db: Database.Database, table: StoredTable): IterableIterator<readonly Stored[]> {
  const columns = table.columns.map(({ name }) => quoted(name)).join(', ')
  const statement = db
    .prepare<[], (null | bigint | number | string | Buffer)[]>(
      `SELECT ${columns} FROM ${quoted(table.name)} ORDER BY rowid`,
    )
    .raw()
    .safeIntegers()
  for (const row of statement.iterate()) {
    yield row.map((value, place) => (table.columns[place]?.type === 'boolean' ? asBoolean(value) : value))
  }
}

function asBoolean<Value>(value: Value): Value | boolean {
  return value === 0n || value === 1n ? value === 1n : value
}

function toSqlite(value: Stored): null | bigint | number | string | Uint8Array {
  return typeof value === 'boolean' ? (value ? 1n : 0n) : value
}

function insertInto({ name, columns }: StoredTable): string {
  const names = columns.map((column) => quoted(column.name)).join(', ')
  return `INSERT INTO ${quoted(name)} (${names}) VALUES (${columns.map(() => '?').join(', ')})`
}

function quoted(name: string): string {
  return `"${name.replaceAll('"', '""')}"`
}
