import 'server-only'
import {
  chmodSync,
  closeSync,
  copyFileSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readSync,
  renameSync,
  rmSync,
} from 'node:fs'
import { basename, dirname, join } from 'node:path'
import Database from 'better-sqlite3'

/** What SQLite may keep beside a database file. */
const BESIDE = ['-wal', '-shm', '-journal']

/** Leaving WAL mode succeeds only for the single connection to a file, and brings the whole log into it. */
export function holdAlone(file: string): Database.Database {
  const db = new Database(file, { timeout: 2000 })
  try {
    db.pragma('locking_mode = EXCLUSIVE')
    db.pragma('journal_mode = DELETE')
    db.exec('BEGIN EXCLUSIVE; COMMIT') // in exclusive locking mode the lock stays until closing
    return db
  } catch (error) {
    db.close()
    throw error
  }
}

/**
 * Keeps a sound copy of an open database in `copies` beside its file.
 *
 * @param why  goes into the copy's name, like `before-0002-mend-first`
 * @returns path of the copy
 */
export function keepCopy(db: Database.Database, file: string, why: string, now: Date): string {
  const copy = copyName(file, why, now)
  const part = `${copy}.part`
  rmSync(part, { force: true })
  db.prepare('VACUUM INTO ?').run(part)
  flush(part)
  chmodSync(part, 0o600)
  renameSync(part, copy)
  flush(dirname(copy))
  return copy
}

/** Does the file begin as every SQLite database does? Of another, SQLite may throw away what lies beside it. */
export function beginsAsDatabase(file: string): boolean {
  const start = Buffer.alloc(16)
  const handle = openSync(file, 'r')
  try {
    return readSync(handle, start, 0, 16, 0) === 0 || start.toString('latin1') === 'SQLite format 3\0'
  } finally {
    closeSync(handle)
  }
}

/** Keeps a damaged database as it lies there, with what SQLite left beside it. @returns path of the copy */
export function keepDamaged(file: string, why: string, now: Date): string {
  const copy = copyName(file, why, now)
  for (const end of ['', ...BESIDE]) {
    if (!existsSync(`${file}${end}`)) continue
    copyFileSync(`${file}${end}`, `${copy}${end}`)
    chmodSync(`${copy}${end}`, 0o600)
    flush(`${copy}${end}`)
  }
  flush(dirname(copy))
  return copy
}

function copyName(file: string, why: string, now: Date): string {
  const folder = join(dirname(file), 'copies')
  mkdirSync(folder, { recursive: true, mode: 0o700 })
  return join(folder, `${basename(file)}.${why}.${now.toISOString().replace(/[:.]/g, '-')}`)
}

/** Makes one whole file of a database that nobody has open. @throws Error  rows point at nothing */
export function settle(file: string): void {
  const db = new Database(file)
  try {
    const broken = db.pragma('foreign_key_check')
    if (Array.isArray(broken) && broken.length > 0) throw new Error(`${broken.length} rows point at nothing`)
    db.pragma('wal_checkpoint(TRUNCATE)')
    db.pragma('journal_mode = DELETE')
  } finally {
    db.close()
  }
  flush(file)
}

export function isEmpty(db: Database.Database): boolean {
  return db.prepare(`SELECT 1 FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'`).get() === undefined
}

export function discard(file: string): void {
  rmSync(file, { force: true })
  discardBeside(file)
}

/** What lies beside a database belongs to that one alone: another in its place must not find it. */
export function discardBeside(file: string): void {
  for (const end of BESIDE) rmSync(`${file}${end}`, { force: true })
}

/** Brings a file, or the list of names of a folder, to the disk. */
export function flush(path: string): void {
  const handle = openSync(path, 'r')
  try {
    fsyncSync(handle)
  } finally {
    closeSync(handle)
  }
}
