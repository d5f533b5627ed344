import { afterEach, beforeEach, expect, test } from 'vitest'
import { inTransaction } from '@/lib/db/engine/transaction'
import { freshDatabase, type FreshDatabase } from '../../../support/fresh-database'

let fresh: FreshDatabase
beforeEach(async () => {
  fresh = await freshDatabase()
})
afterEach(() => fresh.close())

const cafe = (id: string) => ({ data: { id, name: 'Kiosk', createdAt: new Date(0) } })
const busy = () => Object.assign(new Error('database is locked'), { code: 'SQLITE_BUSY' })
const full = () => Object.assign(new Error('database or disk is full'), { code: 'SQLITE_FULL' })

test('what an act writes stands whole, and its answer is handed on', async () => {
  const answer = await inTransaction(fresh, async (tx) => {
    await tx.cafe.create(cafe('a'))
    return 'done'
  })
  expect([answer, await fresh.db.cafe.count()]).toEqual(['done', 1])
})

test('an act that found the database busy is begun anew, and of the first attempt nothing stands', async () => {
  let tried = 0
  await inTransaction(fresh, async (tx) => {
    tried += 1
    await tx.cafe.create(cafe(`attempt-${tried}`))
    if (tried < 3) throw busy()
  })
  expect((await fresh.db.cafe.findMany()).map(({ id }) => id)).toEqual(['attempt-3'])
})

test('three times busy is said, with nothing written', async () => {
  let tried = 0
  const act = inTransaction(fresh, async (tx) => {
    tried += 1
    await tx.cafe.create(cafe(`attempt-${tried}`))
    throw busy()
  })
  await expect(act).rejects.toThrow('locked')
  expect([tried, await fresh.db.cafe.count()]).toEqual([3, 0])
})

test.each([full, () => new RangeError('our own bug')])('another fault is the caller’s at once (%#)', async (fault) => {
  let tried = 0
  const act = inTransaction(fresh, async (tx) => {
    tried += 1
    await tx.cafe.create(cafe('a'))
    throw fault()
  })
  await expect(act).rejects.toThrow(fault().message)
  expect([tried, await fresh.db.cafe.count()]).toEqual([1, 0])
})
