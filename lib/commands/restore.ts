/**
 * `npm run restore -- FILE [--overwrite]`: makes the database of the house from a backup. The house must not run.
 */
import { resolve } from 'node:path'
import { theEnvironment } from '@/lib/base/env'
import { MigrationRefused } from '@/lib/db/engine/migrate'
import { BackupRefused } from '@/lib/tasks/backup/refusal'
import { restoreBackup, type Restored } from '@/lib/tasks/backup/restore-backup'
import { sayComplaints } from './books/say-complaints'
import { takeLock } from './start/lock.mjs'
import { addressAndFolder } from './start/running.mjs'

const USAGE =
  'Say what from: npm run restore -- FILE, with --overwrite to put it in the place of a database that is there'

const { databaseFile } = theEnvironment()
const words = process.argv.slice(2)
const overwrite = words.includes('--overwrite')
const files = words.filter((word) => word !== '--overwrite')
const [file = ''] = files

async function run(): Promise<string> {
  if (files.length !== 1 || file.startsWith('-')) throw new Refusal(USAGE)
  // the lock of npm start: while it is held here nobody starts the house
  const lock = takeLock(`${databaseFile}.lock`, 'restore ')
  if (!lock.taken) {
    const { address } = addressAndFolder(lock.holder.note)
    throw new Refusal(
      `The house runs on this database (${address}, process ${lock.holder.pids[0]}): stop it first. Nothing was changed.`,
    )
  }
  try {
    // npm runs us in the folder of the program and says where the person stood
    const archive = resolve(process.env['INIT_CWD'] ?? '', file)
    return say(await restoreBackup({ archive, database: databaseFile, overwrite, now: new Date() }))
  } finally {
    lock.release()
  }
}

class Refusal extends Error {}

function say({ manifest, rows, applied, copy, complaints }: Restored): string {
  const was = `Restored: ${databaseFile} holds all that was kept by ${manifest.madeAt} (${rows} rows).`
  const then = applied.length === 0 ? '' : ' It was brought up to date.'
  const before = copy === null ? '' : ` What was there before is kept in ${copy}`
  return [`${was}${then}${before}`, ...sayBooks(complaints)].join('\n')
}

/** The backup is what there is, so it is restored all the same; but nobody should find out by a result that looks odd. */
function sayBooks(complaints: Restored['complaints']): readonly string[] {
  if (complaints.length === 0) return []
  const lines = sayComplaints(complaints).map((line) => `- ${line}`)
  return [
    'It came back as it was kept, and something in it does not agree. Keep the backup, and ask for help:',
    ...lines,
  ]
}

try {
  process.stdout.write(`${await run()}\n`)
} catch (error) {
  if (!(error instanceof BackupRefused || error instanceof MigrationRefused || error instanceof Refusal)) throw error
  process.stderr.write(`${error.message}\n`)
  process.exitCode = 1
}
