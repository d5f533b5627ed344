import 'server-only'
import { existsSync, mkdirSync, renameSync, rmSync, statSync } from 'node:fs'
import { dirname } from 'node:path'
import { isDeepStrictEqual } from 'node:util'
import { flush } from '@/lib/db/engine/file-care'
import { readWholeFile, type WholeFile } from '@/lib/db/engine/whole-file'
import type { BackupManifest } from '@/lib/forms/backup-manifest'
import { openArchive } from './open-archive'
import { packArchive } from './pack-archive'
import { BackupRefused, refusalFor } from './refusal'

export interface MadeBackup {
  readonly file: string
  readonly tables: number
  readonly rows: number
  readonly bytes: number
  readonly madeAt: Date
}

/**
 * Makes a backup of a database, whoever writes to it meanwhile: all that was committed before, and nothing half. The archive gets
 * its name when it is on the disk and has been read again to its last row.
 *
 * @param database  path of the database file
 * @param target    path of the archive; never overwritten
 * @throws BackupRefused
 */
export async function makeBackup(database: string, target: string, now: Date): Promise<MadeBackup> {
  if (existsSync(target)) throw new BackupRefused('file-is-there', target)
  const house = openHouse(database)
  const part = `${target}.${process.pid}.part`
  try {
    mkdirSync(dirname(target), { recursive: true, mode: 0o700 })
    const written = await packArchive(house, part, now)
    flush(part)
    await checkArchive(part, written)
    renameSync(part, target)
    flush(dirname(target))
    const rows = written.tables.reduce((sum, table) => sum + table.rows, 0)
    return { file: target, tables: written.tables.length, rows, bytes: statSync(target).size, madeAt: now }
  } catch (error) {
    if (existsSync(part)) rmSync(part)
    throw refusalFor(error, target)
  } finally {
    house.close()
  }
}

function openHouse(database: string): WholeFile {
  try {
    if (!existsSync(database)) throw new BackupRefused('no-database', database)
    return readWholeFile(database)
  } catch (error) {
    if (error instanceof RangeError) throw new BackupRefused('no-database', database, '', { cause: error })
    throw refusalFor(error, database)
  }
}

/** Reads an archive to its last row and sum, as a restore would. @throws BackupRefused */
async function checkArchive(file: string, written: BackupManifest): Promise<void> {
  const archive = await openArchive(file)
  try {
    const isSame = isDeepStrictEqual(archive.manifest, written)
    if (!isSame) throw new BackupRefused('damaged', file, 'it was not kept as it was written')
    for (const table of written.tables) for await (const _ of archive.rows(table));
    for (const { csv } of written.tables) await archive.check(csv)
  } finally {
    archive.close()
  }
}
