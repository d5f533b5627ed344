import 'server-only'
import { setTimeout as wait } from 'node:timers/promises'
import { PrismaBetterSqlite3 } from '@prisma/adapter-better-sqlite3'
import {
  isDriverAdapterError,
  type IsolationLevel,
  type SqlDriverAdapter,
  type SqlDriverAdapterFactory,
  type SqlQuery,
  type SqlResultSet,
  type Transaction,
} from '@prisma/driver-adapter-utils'
import { noteWrite } from './disk'
import { findFault } from './fault'

const HOUSE_RULES = 'PRAGMA foreign_keys = ON; PRAGMA synchronous = FULL; PRAGMA secure_delete = ON;'
const PATIENCE_MS = 5000 // for another process that is writing
const BLINK_MS = 20
const READ = /^\s*SELECT\b/i

/**
 * Two connections to one file: one writes, one reads.
 *
 * Prisma's own adapter has a single connection, and a query outside a transaction runs inside whichever
 * transaction is open at that moment: a stray read sees what is not yet committed, a stray write is rolled
 * back with a stranger's work. Here a write waits for its turn, and a read sees the last commit.
 *
 * Limits: a write through the outer client inside a `$transaction` callback waits for itself until that
 * transaction times out; use the `tx` given.
 */
export class SharedFileFactory implements SqlDriverAdapterFactory {
  readonly provider = 'sqlite'
  readonly adapterName = '@prisma/adapter-better-sqlite3'
  readonly #file: string

  constructor(file: string) {
    this.#file = file
  }

  async connect(): Promise<SqlDriverAdapter> {
    // The driver waits for a lock by blocking the whole process: the writer waits here instead, see withPatience.
    const writer = await new PrismaBetterSqlite3({ url: this.#file, timeout: BLINK_MS }).connect()
    await withPatience(() => writer.executeScript(`PRAGMA journal_mode = WAL; ${HOUSE_RULES}`))
    const reader = await new PrismaBetterSqlite3({ url: this.#file, timeout: PATIENCE_MS }).connect()
    await reader.executeScript(`${HOUSE_RULES} PRAGMA query_only = ON;`)
    return new SharedFile(writer, reader)
  }
}

class SharedFile implements SqlDriverAdapter {
  readonly provider = 'sqlite'
  readonly adapterName = '@prisma/adapter-better-sqlite3'
  readonly #writer: SqlDriverAdapter
  readonly #reader: SqlDriverAdapter
  #lastTurn: Promise<void> = Promise.resolve()

  constructor(writer: SqlDriverAdapter, reader: SqlDriverAdapter) {
    this.#writer = writer
    this.#reader = reader
  }

  async queryRaw(query: SqlQuery): Promise<SqlResultSet> {
    return READ.test(query.sql) ? this.#reader.queryRaw(query) : this.#inTurn(() => this.#writer.queryRaw(query))
  }

  async executeRaw(query: SqlQuery): Promise<number> {
    return this.#inTurn(() => this.#writer.executeRaw(query))
  }

  async executeScript(script: string): Promise<void> {
    return this.#inTurn(() => this.#writer.executeScript(script))
  }

  async startTransaction(level?: IsolationLevel): Promise<Transaction> {
    const done = await this.#takeTurn()
    try {
      await withPatience(() => this.#writer.executeRaw({ sql: 'BEGIN IMMEDIATE', args: [], argTypes: [] }))
    } catch (error) {
      done()
      throw error
    }
    return new OpenTransaction(this.#writer, done, level)
  }

  async dispose(): Promise<void> {
    const done = await this.#takeTurn()
    try {
      await this.#reader.dispose()
      await this.#writer.dispose()
    } finally {
      done()
    }
  }

  async #inTurn<T>(act: () => Promise<T>): Promise<T> {
    const done = await this.#takeTurn()
    try {
      const answer = await noticingNoRoom(() => withPatience(act))
      noteWrite('room')
      return answer
    } finally {
      done()
    }
  }

  async #takeTurn(): Promise<() => void> {
    const before = this.#lastTurn
    let done = (): void => undefined
    this.#lastTurn = new Promise((resolve) => (done = resolve))
    await before
    return done
  }
}

/** Prisma sends BEGIN's counterpart, COMMIT or ROLLBACK, as a query; what is left to do then is to pass the turn on. */
class OpenTransaction implements Transaction {
  readonly provider = 'sqlite'
  readonly adapterName = '@prisma/adapter-better-sqlite3'
  readonly options = { usePhantomQuery: false }
  readonly #writer: SqlDriverAdapter
  readonly #done: () => void
  #hasWritten = false

  constructor(writer: SqlDriverAdapter, done: () => void, _level?: IsolationLevel) {
    this.#writer = writer
    this.#done = done
  }

  queryRaw(query: SqlQuery): Promise<SqlResultSet> {
    this.#hasWritten ||= !READ.test(query.sql)
    return noticingNoRoom(() => this.#writer.queryRaw(query))
  }

  executeRaw(query: SqlQuery): Promise<number> {
    this.#hasWritten ||= query.sql !== 'COMMIT'
    return noticingNoRoom(() => this.#writer.executeRaw(query))
  }

  async commit(): Promise<void> {
    if (this.#hasWritten) noteWrite('room') // a transaction that only read proves nothing
    this.#done()
  }

  /** Also reached when COMMIT itself failed and SQLite left the transaction open: ending it twice is harmless. */
  async rollback(): Promise<void> {
    try {
      await this.#writer.executeScript('ROLLBACK')
    } catch (error) {
      if (!isDriverAdapterError(error)) throw error
    } finally {
      this.#done()
    }
  }

  async createSavepoint(name: string): Promise<void> {
    await this.#writer.executeScript(`SAVEPOINT ${name}`)
  }

  async rollbackToSavepoint(name: string): Promise<void> {
    await this.#writer.executeScript(`ROLLBACK TO ${name}`)
  }

  async releaseSavepoint(name: string): Promise<void> {
    await this.#writer.executeScript(`RELEASE SAVEPOINT ${name}`)
  }
}

async function noticingNoRoom<T>(act: () => Promise<T>): Promise<T> {
  try {
    return await act()
  } catch (error) {
    if (findFault(error)?.name === 'disk-full') noteWrite('no-room')
    throw error
  }
}

/** Only for what has not begun yet: a first statement that found the file locked has done nothing. */
async function withPatience<T>(act: () => Promise<T>): Promise<T> {
  const until = performance.now() + PATIENCE_MS
  for (;;) {
    try {
      return await act()
    } catch (error) {
      const isBusy = isDriverAdapterError(error) && error.cause.kind === 'SocketTimeout'
      if (!isBusy || performance.now() > until) throw error
      await wait(BLINK_MS)
    }
  }
}
