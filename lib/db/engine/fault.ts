import 'server-only'
import { Prisma } from '../generated/client'

/** What can go wrong with the database, in our words. */
export type FaultName =
  | 'taken' // a unique key is already there
  | 'gone' // the row to change is not there (any more)
  | 'broken-link' // a row points at nothing, or something still points at the row
  | 'busy' // somebody else held the database too long; trying again may help
  | 'disk-full'
  | 'not-writable'
  | 'damaged' // the file is not a sound database
  | 'not-migrated' // a table or column is missing
  | 'unreachable' // the file cannot be opened
  | 'unknown'

export type Fault = {
  readonly name: FaultName
  /** Prisma's or SQLite's code, for the log */
  readonly code: string
  /** For `taken`: the columns of the key. */
  readonly fields: readonly string[]
}

const BY_PRISMA_CODE: Readonly<Record<string, FaultName>> = {
  P1001: 'unreachable',
  P1003: 'unreachable',
  P1008: 'busy',
  P2002: 'taken',
  P2003: 'broken-link',
  P2014: 'broken-link',
  P2015: 'gone',
  P2018: 'gone',
  P2021: 'not-migrated',
  P2022: 'not-migrated',
  P2024: 'busy',
  P2025: 'gone',
  P2028: 'busy',
  P2034: 'busy',
}

/** SQLite's result codes (sqlite.org/rescode.html), by their first words: SQLITE_IOERR_WRITE is an SQLITE_IOERR. */
const BY_SQLITE_CODE: readonly (readonly [start: string, name: FaultName])[] = [
  ['SQLITE_BUSY', 'busy'],
  ['SQLITE_LOCKED', 'busy'],
  ['SQLITE_FULL', 'disk-full'],
  ['SQLITE_READONLY', 'not-writable'],
  ['SQLITE_PERM', 'not-writable'],
  ['SQLITE_CORRUPT', 'damaged'],
  ['SQLITE_NOTADB', 'damaged'],
  ['SQLITE_CANTOPEN', 'unreachable'],
  ['SQLITE_IOERR', 'unreachable'],
]

/** The fault behind an error thrown by the database; null when the error is not the database's. */
export function findFault(error: unknown): Fault | null {
  const sqlite = sqliteCode(error)
  if (sqlite !== null) {
    const named = BY_SQLITE_CODE.find(([start]) => sqlite.startsWith(start))
    if (named) return { name: named[1], code: sqlite, fields: [] }
  }
  if (error instanceof Prisma.PrismaClientKnownRequestError) {
    const name = BY_PRISMA_CODE[error.code] ?? 'unknown'
    return { name, code: error.code, fields: name === 'taken' ? takenFields(error.meta) : [] }
  }
  if (error instanceof Prisma.PrismaClientInitializationError) {
    return { name: 'unreachable', code: error.errorCode ?? sqlite ?? '', fields: [] }
  }
  if (error instanceof Prisma.PrismaClientUnknownRequestError || sqlite !== null) {
    return { name: 'unknown', code: sqlite ?? '', fields: [] }
  }
  return null
}

/** Looks where better-sqlite3 and Prisma's adapter put SQLite's own code. */
function sqliteCode(error: unknown): string | null {
  for (const code of [field(error, 'code'), field(adapterCause(error), 'originalCode')]) {
    if (typeof code === 'string' && code.startsWith('SQLITE_')) return code
  }
  return null
}

function adapterCause(error: unknown): unknown {
  return field(field(field(error, 'meta'), 'driverAdapterError'), 'cause') ?? field(error, 'cause')
}

function takenFields(meta: unknown): readonly string[] {
  const fields = field(field(field(field(meta, 'driverAdapterError'), 'cause'), 'constraint'), 'fields')
  return Array.isArray(fields) ? fields.filter((name): name is string => typeof name === 'string') : []
}

function field(from: unknown, name: string): unknown {
  return typeof from === 'object' && from !== null ? Reflect.get(from, name) : undefined
}
