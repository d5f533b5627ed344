import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { spawnSync } from 'node:child_process'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { openDatabase } from '@/lib/db/engine/client'
import { diskStateOf, findDiskState } from '@/lib/db/engine/disk'
import { migrate } from '@/lib/db/engine/migrate'
import { codeSteps } from '@/lib/tasks/upgrade/code-steps'
import { freshDatabase, type FreshDatabase } from '../../../support/fresh-database'

let fresh: FreshDatabase
const lots = async () => 50e9

beforeEach(async () => {
  fresh = await freshDatabase()
})

afterEach(async () => {
  await fresh.close()
})

const cafe = (id: string, name = 'Kiosk') => ({ id, name, createdAt: new Date(0) })
const refused = (work: Promise<unknown>) => expect(work).rejects.toThrow()

/** SQLite itself then answers that there is no room, as on a full disk. */
async function leaveRoomFor(pages: number): Promise<void> {
  const [has] = await fresh.db.$queryRawUnsafe<{ page_count: bigint }[]>('PRAGMA page_count')
  await fresh.db.$queryRawUnsafe(`PRAGMA max_page_count = ${Number(has?.page_count) + pages}`)
}

test('with room on the disk there is nothing to say', async () => {
  await fresh.db.cafe.create({ data: cafe('a') })
  expect(await findDiskState(fresh.db, lots)).toBeNull()
})

test.each([
  ['alone', () => fresh.db.cafe.create({ data: cafe('big', 'x'.repeat(50_000)) })],
  [
    'in a transaction',
    () => fresh.db.$transaction(async (tx) => tx.cafe.create({ data: cafe('big', 'x'.repeat(50_000)) })),
  ],
])('a write %s that found no room makes the disk full until a write finds room again', async (_, write) => {
  await leaveRoomFor(0)
  await refused(write())
  expect(await findDiskState(fresh.db, lots)).toBe('full')
  expect(await fresh.db.cafe.count()).toBe(0)
  await fresh.db.$transaction(async (tx) => tx.cafe.count())
  expect(await findDiskState(fresh.db, lots), 'reading proves nothing').toBe('full')

  await leaveRoomFor(1000)
  await write()
  expect(await findDiskState(fresh.db, lots)).toBeNull()
})

test('a write that failed for another reason says nothing about the disk', async () => {
  await fresh.db.cafe.create({ data: cafe('a') })
  await refused(fresh.db.cafe.create({ data: cafe('a') }))
  expect(await findDiskState(fresh.db, lots)).toBeNull()
})

test('without a write the system is asked: under 100 MB it is nearly full, without room for a few pages it is full', () => {
  const noon = new Date('2026-11-25T12:00:00Z').getTime()
  expect(diskStateOf(99e6, null, noon)).toBe('nearly-full')
  expect(diskStateOf(100e6, null, noon)).toBeNull()
  expect(diskStateOf(200_000, null, noon)).toBe('full')
})

test('what a write found a minute ago is no longer news', () => {
  const noon = new Date('2026-11-25T12:00:00Z').getTime()
  expect(diskStateOf(50e9, noon - 59_000, noon)).toBe('full')
  expect(diskStateOf(50e9, noon - 61_000, noon)).toBeNull()
})

/** A disk of 4 MB; null where this process may not make one. Made by the test alone, which always takes it away again. */
function makeSmallDisk(): string | null {
  const folder = mkdtempSync(join(tmpdir(), 'sipwright-disk-'))
  if (spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=4m', 'sipwright-test', folder]).status === 0) return folder
  rmSync(folder, { recursive: true })
  return null
}

test('on a disk that is really full a write is refused, pages are read, and room mends it', async ({ skip }) => {
  const folder = makeSmallDisk()
  if (folder === null) return skip('no small disk can be made here')
  const url = `file:${join(folder, 'kiosk.db')}`
  const fill = join(folder, 'fill')
  try {
    await migrate(url, codeSteps)
    const db = openDatabase(url)
    try {
      await db.cafe.create({ data: cafe('a') })
      expect(await findDiskState(db)).toBe('nearly-full')
      expect(() => writeFileSync(fill, Buffer.alloc(8_000_000))).toThrow()
      await refused(db.cafe.create({ data: cafe('big', 'x'.repeat(200_000)) }))
      expect(await findDiskState(db)).toBe('full')
      expect((await db.cafe.findMany()).map(({ id }) => id)).toEqual(['a'])
      rmSync(fill)
      await db.cafe.create({ data: cafe('b') })
      expect(await findDiskState(db)).toBe('nearly-full')
    } finally {
      await db.$disconnect()
    }
  } finally {
    spawnSync('umount', [folder])
    rmSync(folder, { recursive: true, force: true })
  }
})
