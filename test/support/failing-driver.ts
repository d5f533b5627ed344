/** A database whose driver fails on demand: everything Prisma asks of it is counted, BEGIN, COMMIT and ROLLBACK included. */
import { DriverAdapterError, type SqlDriverAdapter, type SqlDriverAdapterFactory } from '@prisma/driver-adapter-utils'
import type { SqlQuery, Transaction } from '@prisma/driver-adapter-utils'
import { SharedFileFactory } from '@/lib/db/engine/connection'
import { PrismaClient } from '@/lib/db/generated/client'
import type { Db } from '@/lib/db/engine/client'

/** `once`: this call alone; `lasting`: it and every later one; `unanswered`: this call is done, and nobody hears of it. */
export type Manner = 'once' | 'lasting' | 'unanswered'

export interface Failure {
  /** counted from 1, or the next COMMIT */
  readonly at: number | 'commit'
  readonly manner: Manner
  /** SQLite gave up for a lock, or the disk broke off */
  readonly as?: 'busy' | 'broken'
}

export interface FailingDatabase {
  readonly db: Db
  /** From the next call on, counting anew; null: the driver is sound. */
  fail(failure: Failure | null): void
  /** calls since then */
  readonly calls: number
  /** whether a call has failed since then */
  readonly hasFailed: boolean
}

export function failingDatabase(file: string): FailingDatabase {
  let failure: Failure | null = null
  let calls = 0
  let hasFailed = false

  async function call<Answer>(sql: string, ask: () => Promise<Answer>): Promise<Answer> {
    calls++
    const mine =
      failure !== null &&
      (failure.at === 'commit'
        ? sql === 'COMMIT' && !hasFailed
        : calls === failure.at || (failure.manner === 'lasting' && calls > failure.at))
    if (!failure || !mine) return ask()
    hasFailed = true
    if (failure.manner === 'unanswered') await ask()
    // 10 is SQLITE_IOERR (sqlite.org/rescode.html)
    throw new DriverAdapterError(
      failure.as === 'busy'
        ? { kind: 'SocketTimeout', originalCode: 'SQLITE_BUSY' }
        : { kind: 'sqlite', extendedCode: 10, message: 'disk I/O error', originalCode: 'SQLITE_IOERR' },
    )
  }

  const asking = (to: Pick<SqlDriverAdapter, 'queryRaw' | 'executeRaw'>) => ({
    queryRaw: (query: SqlQuery) => call(query.sql, () => to.queryRaw(query)),
    executeRaw: (query: SqlQuery) => call(query.sql, () => to.executeRaw(query)),
  })
  const factory: SqlDriverAdapterFactory = {
    provider: 'sqlite',
    adapterName: '@prisma/adapter-better-sqlite3',
    async connect() {
      const sound = await new SharedFileFactory(file).connect()
      return {
        provider: 'sqlite',
        adapterName: '@prisma/adapter-better-sqlite3',
        ...asking(sound),
        executeScript: (script) => sound.executeScript(script),
        dispose: () => sound.dispose(),
        startTransaction: (level) =>
          call('BEGIN', async (): Promise<Transaction> => {
            const tx = await sound.startTransaction(level)
            return {
              provider: 'sqlite',
              adapterName: '@prisma/adapter-better-sqlite3',
              options: tx.options,
              ...asking(tx),
              commit: () => tx.commit(),
              rollback: () => tx.rollback(),
            }
          }),
      }
    },
  }
  return {
    db: new PrismaClient({
      adapter: factory,
      transactionOptions: { maxWait: 10_000, timeout: 10_000 },
      errorFormat: 'minimal',
    }),
    fail(next) {
      failure = next
      calls = 0
      hasFailed = false
    },
    get calls() {
      return calls
    },
    get hasFailed() {
      return hasFailed
    },
  }
}
