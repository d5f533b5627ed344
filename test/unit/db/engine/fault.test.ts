import { afterEach, beforeEach, expect, test } from 'vitest'
import Database from 'better-sqlite3'
import { findFault } from '@/lib/db/engine/fault'
import { freshDatabase, type FreshDatabase } from '../../../support/fresh-database'

let fresh: FreshDatabase

beforeEach(async () => {
  fresh = await freshDatabase()
})

afterEach(async () => {
  await fresh.close()
})

const cafe = (id: string) => ({ id, name: 'Kiosk', createdAt: new Date(0) })
const thrown = (work: Promise<unknown>): Promise<unknown> =>
  work.then(
    () => null,
    (error: unknown) => error,
  )

test('a second row with the same unique key is taken, and the key is named', async () => {
  await fresh.db.cafe.create({ data: cafe('a') })
  const recipe = { cafeId: 'a', name: 'Iced', createdAt: new Date(0) }
  await fresh.db.recipe.create({ data: { id: '1', ...recipe } })
  const error = await thrown(fresh.db.recipe.create({ data: { id: '2', ...recipe } }))
  expect(findFault(error)).toEqual({ name: 'taken', code: 'P2002', fields: ['cafeId', 'name'] })
})

test('a change to a row that is not there is gone', async () => {
  const error = await thrown(fresh.db.cafe.update({ where: { id: 'nowhere' }, data: { name: 'x' } }))
  expect(findFault(error)).toMatchObject({ name: 'gone', code: 'P2025' })
})

test('deleting what something still points at is a broken link', async () => {
  await fresh.db.cafe.create({ data: cafe('a') })
  await fresh.db.recipe.create({ data: { id: '1', cafeId: 'a', name: 'Iced', createdAt: new Date(0) } })
  expect(findFault(await thrown(fresh.db.cafe.delete({ where: { id: 'a' } })))).toMatchObject({ name: 'broken-link' })
})

test('no more room is disk-full, and the refused row is not there afterwards', async () => {
  const [pages] = await fresh.db.$queryRawUnsafe<{ page_count: bigint }[]>('PRAGMA page_count')
  await fresh.db.$queryRawUnsafe(`PRAGMA max_page_count = ${Number(pages?.page_count)}`)
  const error = await thrown(fresh.db.cafe.create({ data: { ...cafe('big'), name: 'x'.repeat(50_000) } }))
  expect(findFault(error)).toMatchObject({ name: 'disk-full', code: 'SQLITE_FULL' })
  expect(await fresh.db.cafe.count()).toBe(0)
})

test('a database that may only be read is not-writable', async () => {
  await fresh.db.$executeRawUnsafe('PRAGMA query_only = ON')
  const error = await thrown(fresh.db.cafe.create({ data: cafe('a') }))
  expect(findFault(error)).toMatchObject({ name: 'not-writable', code: 'SQLITE_READONLY' })
})

test('a missing table is not-migrated', async () => {
  await fresh.db.$executeRawUnsafe('DROP TABLE "SignInBrake"')
  expect(findFault(await thrown(fresh.db.signInBrake.count()))).toMatchObject({ name: 'not-migrated' })
})

test("better-sqlite3's own errors are named by their code", () => {
  const db = new Database(':memory:')
  db.pragma('query_only = ON')
  let error: unknown = null
  try {
    db.exec('CREATE TABLE t (x)')
  } catch (caught) {
    error = caught
  }
  db.close()
  expect(findFault(error)).toMatchObject({ name: 'not-writable' })
})

test('an error of our own is nobody’s fault but ours', () => {
  expect(findFault(new RangeError('SQLITE_FULL'))).toBeNull()
  expect(findFault(null)).toBeNull()
  expect(findFault('P2002')).toBeNull()
})
