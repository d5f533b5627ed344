/**
 * `npm run setup-link`: prints a fresh link with which the first owner sets up the house, for a house that is started by a service.
 * On a terminal alone, or where SETUP_LINK=print says that whoever reads it may; links printed before stop working.
 */
import { theEnvironment } from '@/lib/base/env'
import { openDatabase } from '@/lib/db/engine/client'
import { offerSetUp } from '@/lib/tasks/house/offer-set-up'
import { worldOf } from '@/lib/tasks/world'
import { mayPrintSetUpLink } from './start/privacy.mjs'

const { databaseUrl, port, publicUrl } = theEnvironment()

async function run(): Promise<string | null> {
  const db = openDatabase(databaseUrl)
  try {
    return await offerSetUp(worldOf(db))
  } finally {
    await db.$disconnect()
  }
}

function refuse(line: string): void {
  process.stderr.write(`${line}\n`)
  process.exitCode = 1
}

if (!mayPrintSetUpLink()) {
  refuse('Whoever has the link owns the house: run this in a terminal, or say SETUP_LINK=print where its reader may.')
} else {
  const token = await run()
  if (token === null) refuse('The house is set up: sign in, or npm run reset-password -- EMAIL')
  else process.stdout.write(`${publicUrl ?? `http://localhost:${port}`}/setup/${token}\n`)
}
