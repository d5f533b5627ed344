import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { openDatabase } from '@/lib/db/engine/client'
import { findFault } from '@/lib/db/engine/fault'
import { freshDatabase, type FreshDatabase } from '../../../support/fresh-database'

let fresh: FreshDatabase

beforeEach(async () => {
  fresh = await freshDatabase()
})

afterEach(async () => {
  await fresh.close()
})

const cafe = (id: string) => ({ id, name: `Café ${id}`, createdAt: new Date('2026-05-01T08:00:00Z') })

/** Resolves when it is opened. */
function gate(): { opened: Promise<void>; open: () => void } {
  let open = (): void => undefined
  const opened = new Promise<void>((resolve) => (open = resolve))
  return { opened, open }
}

test('both connections keep foreign keys and every commit on disk before it is acknowledged', async () => {
  // A PRAGMA goes to the writing connection, a SELECT to the reading one.
  const written = await fresh.db.$queryRawUnsafe<Record<string, unknown>[]>('PRAGMA synchronous')
  const links = await fresh.db.$queryRawUnsafe<Record<string, unknown>[]>('PRAGMA foreign_keys')
  const journal = await fresh.db.$queryRawUnsafe<Record<string, unknown>[]>('PRAGMA journal_mode')
  const read = await fresh.db.$queryRawUnsafe<Record<string, unknown>[]>(
    'SELECT synchronous, foreign_keys, query_only FROM pragma_synchronous, pragma_foreign_keys, pragma_query_only',
  )
  // 2 is FULL (sqlite.org/pragma.html, "synchronous")
  expect(written.map((row) => Number(row['synchronous']))).toEqual([2])
  expect(links.map((row) => Number(row['foreign_keys']))).toEqual([1])
  expect(journal).toEqual([{ journal_mode: 'wal' }])
  expect(read.map((row) => Object.values(row).map(Number))).toEqual([[2, 1, 1]])
})

test('a row that points at nothing is refused', async () => {
  const outcome = fresh.db.recipe.create({ data: { id: 'r', cafeId: 'nobody', name: 'x', createdAt: new Date(0) } })
  expect(findFault(await outcome.catch((error: unknown) => error))).toMatchObject({ name: 'broken-link' })
})

test('a read outside an open transaction sees the last commit, not the work in progress', async () => {
  const [written, looked] = [gate(), gate()]
  const work = fresh.db.$transaction(async (tx) => {
    await tx.cafe.create({ data: cafe('a') })
    expect(await tx.cafe.count()).toBe(1)
    written.open()
    await looked.opened
  })
  await written.opened
  expect(await fresh.db.cafe.count()).toBe(0)
  looked.open()
  await work
  expect(await fresh.db.cafe.count()).toBe(1)
})

test("a write outside an open transaction is not rolled back with the stranger's work", async () => {
  const [written, asked] = [gate(), gate()]
  const work = fresh.db.$transaction(async (tx) => {
    await tx.cafe.create({ data: cafe('stranger') })
    written.open()
    await asked.opened
    throw new RangeError('changed my mind')
  })
  await written.opened
  const mine = fresh.db.cafe.create({ data: cafe('mine') })
  asked.open()
  await expect(work).rejects.toThrow('changed my mind')
  await mine
  expect((await fresh.db.cafe.findMany()).map((row) => row.id)).toEqual(['mine'])
})

test('sixty transactions at once that read, count and write one after another lose nothing', async () => {
  await fresh.db.cafe.create({ data: { ...cafe('a'), currencyDigits: 0 } })
  const add = (n: number) =>
    fresh.db.$transaction(async (tx) => {
      const { currencyDigits } = await tx.cafe.findUniqueOrThrow({ where: { id: 'a' } })
      await tx.cafe.update({ where: { id: 'a' }, data: { currencyDigits: currencyDigits + 1 } })
      await tx.cafe.create({ data: cafe(`b${n}`) })
    })
  await Promise.all(Array.from({ length: 60 }, (_, n) => add(n)))
  expect(await fresh.db.cafe.findUnique({ where: { id: 'a' } })).toMatchObject({ currencyDigits: 60 })
  expect(await fresh.db.cafe.count()).toBe(61)
})

test('the turn passes on after a transaction that failed, timed out or could not start', async () => {
  const failing = fresh.db.$transaction(async (tx) => {
    await tx.cafe.create({ data: cafe('a') })
    await tx.cafe.create({ data: cafe('a') })
  })
  expect(findFault(await failing.catch((error: unknown) => error))).toMatchObject({ name: 'taken' })

  const slow = fresh.db.$transaction(
    async (tx) => {
      await tx.cafe.create({ data: cafe('slow') })
      await new Promise((resolve) => setTimeout(resolve, 120))
      await tx.cafe.count()
    },
    { timeout: 40 },
  )
  const impatient = fresh.db.$transaction(async (tx) => tx.cafe.count(), { maxWait: 10 })
  expect(findFault(await impatient.catch((error: unknown) => error))).toMatchObject({ name: 'busy' })
  expect(findFault(await slow.catch((error: unknown) => error))).toMatchObject({ name: 'busy' })

  await fresh.db.$transaction(async (tx) => tx.cafe.create({ data: cafe('after') }))
  expect((await fresh.db.cafe.findMany()).map((row) => row.id)).toEqual(['after'])
})

/** Another process holds the file to write, until it is told to let go. */
async function holdElsewhere() {
  const script = `
    import Database from 'better-sqlite3'
    const db = new Database(process.argv[1])
    db.exec('BEGIN IMMEDIATE')
    console.log('held')
    process.stdin.once('data', () => { db.exec('COMMIT'); db.close(); process.exit() })`
  const other = spawn(process.execPath, ['--input-type=module', '-e', script, fresh.file], {
    stdio: ['pipe', 'pipe', 'inherit'],
  })
  await once(other.stdout, 'data')
  return () => other.stdin.write('let go')
}

test('a write waits for another process that is writing, without blocking this one', async () => {
  const letGo = await holdElsewhere()
  // the other lets go only when this process has gone on for a while beside its waiting writes
  let beats = 0
  const heart = setInterval(() => {
    if (++beats === 10) letGo()
  }, 10)
  await Promise.all([
    fresh.db.cafe.create({ data: cafe('a') }),
    fresh.db.$transaction(async (tx) => tx.cafe.create({ data: cafe('b') })),
  ])
  clearInterval(heart)
  expect(await fresh.db.cafe.count()).toBe(2)
  expect(beats).toBeGreaterThanOrEqual(10)
})

test('a write that waits in vain is told so, though the clock is set back meanwhile', async () => {
  const letGo = await holdElsewhere()
  const hour = 3_600_000
  let now = Date.now()
  const clock = vi.spyOn(Date, 'now').mockImplementation(() => (now -= hour))
  const outcome = await fresh.db.cafe.create({ data: cafe('a') }).catch((error: unknown) => error)
  clock.mockRestore()
  expect(findFault(outcome)).toMatchObject({ name: 'busy' })
  letGo()
})

test('an address that is not a file is refused with the address in the message', () => {
  expect(() => openDatabase('postgres://somewhere')).toThrow('got postgres://somewhere')
})
