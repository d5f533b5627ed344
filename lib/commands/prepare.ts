/**
 * What `npm start` needs of the database: brought up to date and tidied, has anybody an account, and while nobody has a set-up link, if asked for.
 * Prints one line of JSON.
 *
 *     node --import tsx --conditions=react-server lib/commands/prepare.ts [--offer-set-up]
 */
import { theEnvironment } from '@/lib/base/env'
import { openDatabase } from '@/lib/db/engine/client'
import { findFault } from '@/lib/db/engine/fault'
import { migrate, MigrationRefused } from '@/lib/db/engine/migrate'
import { forgottenMarks } from '@/lib/db/forgotten-marks'
import { countUsers } from '@/lib/db/people'
import { offerSetUp } from '@/lib/tasks/house/offer-set-up'
import { dropOldCopies, tidy } from '@/lib/tasks/privacy/tidy'
import { codeSteps } from '@/lib/tasks/upgrade/code-steps'
import { worldOf, type World } from '@/lib/tasks/world'

export interface SetUp {
  /** somebody has an account */
  readonly isDone: boolean
  /** of a fresh link; null where none was asked for or none is needed */
  readonly token: string | null
}

export type Prepared =
  | {
      readonly ok: true
      readonly copy: string | null
      readonly setUp: SetUp
      /** why names past their time are still there; null: they are not */
      readonly untidied: string | null
    }
  | { readonly ok: false; readonly problem: string }

async function prepare(url: string, file: string, offers: boolean): Promise<Prepared> {
  const { copy } = await migrate(url, codeSteps)
  const db = openDatabase(url)
  try {
    const world = worldOf(db)
    const untidied = await tidyUp(world, file)
    const isDone = (await countUsers(db)) > 0
    return { ok: true, copy, setUp: { isDone, token: offers ? await offerSetUp(world) : null }, untidied }
  } finally {
    await db.$disconnect()
  }
}

/** A full disk keeps no house from opening: it is tidied another day. */
async function tidyUp(world: World, file: string): Promise<string | null> {
  try {
    await tidy(world, forgottenMarks(file))
    await dropOldCopies(world, file)
    return null
  } catch (error) {
    return error instanceof Error ? (error.message.trim().split('\n').at(-1) ?? error.name) : String(error)
  }
}

function problemOf(error: unknown): string {
  if (error instanceof MigrationRefused) return error.message
  const fault = findFault(error)
  if (fault)
    return `The database cannot be used (${fault.name}, ${fault.code}): check the disk and the rights to its folder.`
  throw error
}

const { databaseUrl, databaseFile } = theEnvironment()
const outcome = await prepare(databaseUrl, databaseFile, process.argv.includes('--offer-set-up')).catch(
  (error: unknown): Prepared => ({ ok: false, problem: problemOf(error) }),
)
process.stdout.write(`${JSON.stringify(outcome)}\n`)
