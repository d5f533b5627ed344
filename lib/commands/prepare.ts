/**
 * What `npm start` needs of the database: brought up to date, and the set-up link while nobody has an account.
 * Prints one line of JSON.
 *
 *     node --import tsx --conditions=react-server lib/commands/prepare.ts [--offer-set-up]
 */
import { theEnvironment } from '@/lib/base/env'
import { openDatabase } from '@/lib/db/engine/client'
import { findFault } from '@/lib/db/engine/fault'
import { migrate, MigrationRefused } from '@/lib/db/engine/migrate'
import { offerSetUp } from '@/lib/tasks/house/offer-set-up'
import { codeSteps } from '@/lib/tasks/upgrade/code-steps'
import { worldOf } from '@/lib/tasks/world'

export type Prepared =
  | { readonly ok: true; readonly copy: string | null; readonly setUpToken: string | null }
  | { readonly ok: false; readonly problem: string }

async function prepare(url: string, offers: boolean): Promise<Prepared> {
  const { copy } = await migrate(url, codeSteps)
  if (!offers) return { ok: true, copy, setUpToken: null }
  const db = openDatabase(url)
  try {
    return { ok: true, copy, setUpToken: await offerSetUp(worldOf(db)) }
  } finally {
    await db.$disconnect()
  }
}

function problemOf(error: unknown): string {
  if (error instanceof MigrationRefused) return error.message
  const fault = findFault(error)
  if (fault)
    return `The database cannot be used (${fault.name}, ${fault.code}): check the disk and the rights to its folder.`
  throw error
}

const { databaseUrl } = theEnvironment()
const outcome = await prepare(databaseUrl, process.argv.includes('--offer-set-up')).catch(
  (error: unknown): Prepared => ({ ok: false, problem: problemOf(error) }),
)
process.stdout.write(`${JSON.stringify(outcome)}\n`)
