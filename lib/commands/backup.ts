/**
 * `npm run backup -- FILE`: everything the house holds, in one archive, while it runs or not.
 * `npm run backup -- --rotate`: the same into the folder of BACKUPS, where the oldest beyond BACKUPS_KEPT go.
 */
import { constants, setPriority } from 'node:os'
import { resolve } from 'node:path'
import { theEnvironment } from '@/lib/base/env'
import { makeBackup, type MadeBackup } from '@/lib/tasks/backup/make-backup'
import { BackupRefused } from '@/lib/tasks/backup/refusal'
import { rotateBackups } from '@/lib/tasks/backup/rotate-backups'
import { takeLock } from './start/lock.mjs'

const USAGE = 'Say where to: npm run backup -- FILE, or npm run backup -- --rotate with BACKUPS set to a folder'

const { databaseFile, backups } = theEnvironment()
const words = process.argv.slice(2)
const [word = ''] = words

async function run(): Promise<string> {
  if (words.length !== 1 || (word.startsWith('-') && word !== '--rotate')) throw new Refusal(USAGE)
  // npm runs us in the folder of the program and says where the person stood
  if (word !== '--rotate') {
    return say(await makeBackup(databaseFile, resolve(process.env['INIT_CWD'] ?? '', word), new Date()))
  }
  if (backups === null) throw new Refusal(USAGE)
  const turn = takeLock(`${databaseFile}.backup.lock`, 'backup')
  if (!turn.taken) throw new Refusal(`Process ${turn.holder.pids[0]} is making a backup already: wait for that one.`)
  try {
    const { made, removed } = await rotateBackups(databaseFile, backups, new Date())
    return removed.length === 0 ? say(made) : `${say(made)} Removed: ${removed.join(', ')}.`
  } finally {
    turn.release()
  }
}

class Refusal extends Error {}

function say({ file, tables, rows, bytes, madeAt }: MadeBackup): string {
  const size = `${tables} tables, ${rows} rows, ${(bytes / 1e6).toFixed(1)} MB`
  return `Backed up and read back: ${file} (${size}; all that was kept by ${madeAt.toISOString()}).`
}

if (process.platform === 'linux') setPriority(constants.priority.PRIORITY_LOW) // phones go first
try {
  process.stdout.write(`${await run()}\n`)
} catch (error) {
  if (!(error instanceof BackupRefused || error instanceof Refusal)) throw error
  process.stderr.write(`${error.message}\n`)
  process.exitCode = 1
}
