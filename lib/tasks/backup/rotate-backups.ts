import 'server-only'
import { existsSync, readdirSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { backupName, timeOfBackup } from '@/lib/base/backup-name.mjs'
import { makeBackup, type MadeBackup } from './make-backup'
import { refusalFor } from './refusal'

/**
 * Makes a backup in a folder, and only then removes the oldest there beyond those that are kept. Files of other names stay.
 *
 * @param kept  how many backups stay, at least 1; the one just made is always among them
 * @returns the backup, and the names of those removed
 * @throws BackupRefused
 */
export async function rotateBackups(
  database: string,
  { folder, kept }: { readonly folder: string; readonly kept: number },
  now: Date,
): Promise<{ readonly made: MadeBackup; readonly removed: readonly string[] }> {
  sweepParts(folder)
  const name = backupName(now)
  const made = await makeBackup(database, join(folder, name), now)
  try {
    const others = backupsIn(folder).filter((other) => other !== name)
    const removed = others.slice(0, Math.max(0, others.length + 1 - kept))
    for (const old of removed) rmSync(join(folder, old))
    return { made, removed }
  } catch (error) {
    throw refusalFor(error, folder)
  }
}

/** Oldest first. */
function backupsIn(folder: string): string[] {
  return readdirSync(folder)
    .filter((name) => timeOfBackup(name) !== null)
    .sort()
}

/** What was being made when the power went. Rotations take turns, so that none of these is still being written. */
function sweepParts(folder: string): void {
  if (!existsSync(folder)) return
  for (const name of readdirSync(folder)) {
    const [, of] = /^(.*)\.\d+\.part$/.exec(name) ?? []
    if (of !== undefined && timeOfBackup(of) !== null) rmSync(join(folder, name), { force: true })
  }
}
