import 'server-only'
import { demand } from '@/lib/base/demand'
import { theEnvironment } from '@/lib/base/env'
import { databaseFile } from '@/lib/base/read-environment.mjs'
import { SharedFileFactory } from './connection'
import { PrismaClient, type Prisma } from '../generated/client'

export type Db = PrismaClient
/** The client inside `db.$transaction(async (tx) => …)`. */
export type Tx = Prisma.TransactionClient

/**
 * Opens a migrated database file. Writes take turns; a turn that does not come within ten seconds, or a transaction
 * that holds it for ten, ends in the fault `busy`.
 *
 * @param url  `file:` and a path; a relative one counts from the folder the process was started in
 */
export function openDatabase(url: string): Db {
  const file = databaseFile(url, process.cwd())
  demand(file !== null, `DATABASE_URL must be file: and a path, got ${url}`)
  return new PrismaClient({
    adapter: new SharedFileFactory(file),
    transactionOptions: { maxWait: 10_000, timeout: 10_000 },
    errorFormat: 'minimal',
  })
}

const here = globalThis as typeof globalThis & { sipwrightDatabase?: Db }

/** The one database of this process; kept outside the module because `next dev` loads modules again and again. */
export function theDatabase(): Db {
  here.sipwrightDatabase ??= openDatabase(theEnvironment().databaseUrl)
  return here.sipwrightDatabase
}
