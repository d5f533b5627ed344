import 'server-only'
import { chmodSync, existsSync, mkdirSync, renameSync, rmSync, statfsSync, statSync } from 'node:fs'
import { dirname } from 'node:path'
import { checkBooks, type Complaint } from '@/lib/db/books/check-books'
import { openDatabase } from '@/lib/db/engine/client'
import { findFault } from '@/lib/db/engine/fault'
import {
  beginsAsDatabase,
  discard,
  discardBeside,
  flush,
  holdAlone,
  isEmpty,
  keepCopy,
  keepDamaged,
  settle,
} from '@/lib/db/engine/file-care'
import { migrate } from '@/lib/db/engine/migrate'
import { listMigrations } from '@/lib/db/engine/schema-engine'
import {
  fillWholeFile,
  holdsTables,
  laySchema,
  type Filling,
  type Stored,
  type StoredTable,
} from '@/lib/db/engine/whole-file'
import type { BackupManifest, BackupTable } from '@/lib/forms/backup-manifest'
import { openArchive, type Archive } from './open-archive'
import { BackupRefused, refusalFor } from './refusal'
import { restoreSteps, type RestoreStep } from './restore-steps'
import { codeSteps } from '../upgrade/code-steps'
import { worldOf } from '../world'

export interface Restored {
  readonly manifest: BackupManifest
  readonly rows: number
  /** migrations that came after the backup and were applied to it */
  readonly applied: readonly string[]
  /** what was there before, when something was */
  readonly copy: string | null
  /** what must hold in every house and does not in this one: it comes back as it was kept, and that is said */
  readonly complaints: readonly Complaint[]
}

export interface RestoreOrder {
  /** path of the archive */
  readonly archive: string
  /** path of the database file; the house must not run on it */
  readonly database: string
  /** put it in the place of a database that is there, and keep a copy of that one in `copies` beside it */
  readonly overwrite: boolean
  readonly now: Date
}

/**
 * Makes a database from a backup: lays the schema of its day, fills in its rows, brings it up to date. All is done on a file
 * aside, which takes its place only when it is whole; until then nothing is changed.
 *
 * @throws BackupRefused, or MigrationRefused where it cannot be brought up to date
 */
export async function restoreBackup(
  order: RestoreOrder,
  steps: readonly RestoreStep[] = restoreSteps,
  freeBytes = freeBytesAt,
): Promise<Restored> {
  const { archive: file, database, overwrite, now } = order
  if (!overwrite && existsSync(database) && holdsTables(database)) {
    throw new BackupRefused('database-is-there', database)
  }
  const archive = await openArchive(file)
  const aside = `${database}.restoring`
  try {
    checkVersion(archive.manifest, file)
    mkdirSync(dirname(database), { recursive: true, mode: 0o700 })
    checkRoom(archive.manifest, freeBytes(dirname(database)), file)
    await layArchive(archive, aside, file)
    const { applied, copy: ofAside } = await migrate(`file:${aside}`, codeSteps, now)
    if (ofAside !== null) rmSync(ofAside) // the archive itself is that copy
    const complaints = await takeSteps(aside, steps, archive.manifest, database)
    settle(aside)
    const copy = takePlace(aside, database, now)
    const rows = archive.manifest.tables.reduce((sum, table) => sum + table.rows, 0)
    return { manifest: archive.manifest, rows, applied, copy, complaints }
  } catch (error) {
    throw refusalFor(error, database)
  } finally {
    archive.close()
    discard(aside)
  }
}

/** Makes a database as it was when the archive was made, of the version that it had then. Every sum is checked. */
export async function layArchive(archive: Archive, aside: string, file: string): Promise<void> {
  discard(aside)
  await laySchema(aside, archive.manifest.migrations)
  chmodSync(aside, 0o600)
  const filling = fillWholeFile(aside)
  try {
    for (const kept of archive.manifest.tables) {
      const table = matching(filling.tables, kept, file)
      for await (const rows of archive.rows(kept)) for (const row of rows) addRow(filling, table, row, file)
      await archive.check(kept.csv)
    }
    const missing = filling.tables.find(({ name }) => !archive.manifest.tables.some((kept) => kept.name === name))
    if (missing) throw new BackupRefused('damaged', file, `the table ${missing.name} is missing`)
    const broken = filling.brokenLinks()
    if (broken > 0) throw new BackupRefused('damaged', file, `${broken} rows point at nothing`)
    filling.finish()
  } finally {
    filling.close()
  }
}

function addRow(filling: Filling, table: StoredTable, row: readonly Stored[], file: string): void {
  try {
    filling.add(table, row)
  } catch (error) {
    const breaksRule = findFault(error)?.code.startsWith('SQLITE_CONSTRAINT') === true
    if (!breaksRule) throw error
    throw new BackupRefused('damaged', file, `a row of ${table.name} cannot stand beside the others`, { cause: error })
  }
}

/** The laid table, its columns in the order of the archive. */
function matching(laid: readonly StoredTable[], { name, columns }: BackupTable, file: string): StoredTable {
  const known = laid.find((table) => table.name === name)?.columns.map((column) => column.name) ?? []
  const kept = columns.map((column) => column.name)
  const isSame =
    known.length === new Set(kept).size && known.length === kept.length && known.every((one) => kept.includes(one))
  if (known.length === 0 || !isSame) {
    throw new BackupRefused('damaged', file, `the table ${name} is not one of the version it was made by`)
  }
  return { name, columns }
}

function checkVersion({ migrations, tables, files }: BackupManifest, file: string): void {
  const known = listMigrations()
  const unknown = migrations.find((name) => !known.includes(name))
  if (unknown !== undefined) throw new BackupRefused('newer', file, `"${unknown}"`)
  if (!migrations.every((name, place) => name === known[place])) {
    throw new BackupRefused('damaged', file, 'its version is none that ever was')
  }
  const ofTables = new Set(tables.flatMap(({ jsonl, csv }) => [jsonl, csv]))
  const other = files.find(({ path }) => !ofTables.has(path))
  if (other) throw new BackupRefused('has-files', file, other.path)
}

/** A small zip can unpack to more than any disk holds. */
function checkRoom({ tables, files }: BackupManifest, free: number, file: string): void {
  const rows = new Set(tables.map(({ jsonl }) => jsonl))
  const needed = files.filter(({ path }) => rows.has(path)).reduce((sum, { bytes }) => sum + bytes, 0)
  if (needed > free) {
    throw new BackupRefused('too-big', file, `${inMegabytes(needed)} unpacked and ${inMegabytes(free)} free`)
  }
}

function freeBytesAt(folder: string): number {
  const { bavail, bsize } = statfsSync(folder)
  return bavail * bsize
}

function inMegabytes(bytes: number): string {
  return `${Math.ceil(bytes / 1e6)} MB`
}

/** @returns what does not hold after them */
async function takeSteps(
  aside: string,
  steps: readonly RestoreStep[],
  manifest: BackupManifest,
  database: string,
): Promise<readonly Complaint[]> {
  const db = openDatabase(`file:${aside}`)
  try {
    for (const step of steps) await step(worldOf(db), manifest, database)
    return await checkBooks(db)
  } finally {
    await db.$disconnect()
  }
}

/** @returns the copy of what was there */
function takePlace(aside: string, database: string, now: Date): string | null {
  const before = existsSync(database) ? setAside(database, now) : null
  try {
    if (before) chmodSync(aside, before.mode)
    renameSync(aside, database)
    flush(dirname(database))
    return before?.copy ?? null
  } finally {
    before?.letGo()
  }
}

interface SetAside {
  readonly mode: number
  readonly copy: string | null
  /** lets others open the file again */
  letGo(): void
}

const WHY = 'before-restore'

/** Holds the database that is there, so that nobody writes to it any more, and keeps a copy; a damaged one as it lies there. */
function setAside(database: string, now: Date): SetAside {
  if (!beginsAsDatabase(database)) return setDamagedAside(database, now)
  try {
    return holdAside(database, now)
  } catch (error) {
    if (findFault(error)?.name === 'damaged') return setDamagedAside(database, now)
    throw error
  }
}

function holdAside(database: string, now: Date): SetAside {
  const holder = holdAlone(database)
  try {
    const copy = isEmpty(holder) ? null : keepCopy(holder, database, WHY, now)
    return { mode: statSync(database).mode, copy, letGo: () => holder.close() }
  } catch (error) {
    holder.close()
    throw error
  }
}

function setDamagedAside(database: string, now: Date): SetAside {
  const copy = keepDamaged(database, WHY, now)
  discardBeside(database)
  return { mode: statSync(database).mode, copy, letGo: () => undefined }
}
