import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { openDatabase } from '@/lib/db/engine/client'
import { migrate, MigrationRefused } from '@/lib/db/engine/migrate'
import { listMigrations } from '@/lib/db/engine/schema-engine'
import { codeSteps } from '@/lib/tasks/upgrade/code-steps'

let folder: string
let file: string
const url = () => `file:${file}`
const noon = new Date('2026-05-01T12:00:00Z')

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'sipwright-migrate-'))
  file = join(folder, 'kiosk.db')
})

afterEach(() => {
  rmSync(folder, { recursive: true, force: true })
})

function withFile<T>(work: (db: Database.Database) => T): T {
  const db = new Database(file)
  try {
    return work(db)
  } finally {
    db.close()
  }
}

const refusal = (work: Promise<unknown>): Promise<unknown> =>
  work.then(
    () => null,
    (error: unknown) => (error instanceof MigrationRefused ? error : Promise.reject(error)),
  )

/** Takes the newest migration back out of the history, with the tables it made, so that it is missing again. */
function forgetEverything(): void {
  withFile((db) => {
    db.pragma('foreign_keys = OFF')
    const tables = db.prepare<[], { name: string }>(`SELECT name FROM sqlite_master WHERE type = 'table'`).all()
    for (const { name } of tables) if (name !== '_prisma_migrations') db.exec(`DROP TABLE "${name}"`)
    db.exec('DELETE FROM _prisma_migrations; CREATE TABLE "Kept" (note TEXT); INSERT INTO "Kept" VALUES (\'ours\')')
  })
}

test('a new file gets every migration, in a folder that is made for it, and no copy', async () => {
  file = join(folder, 'deep', 'down', 'kiosk.db')
  const done = await migrate(url(), codeSteps)
  expect(done).toEqual({ applied: listMigrations(), copy: null })
  expect(readdirSync(join(folder, 'deep', 'down'))).toEqual(['kiosk.db'])
  expect(statSync(file).mode & 0o777).toBe(0o600)
  const db = openDatabase(url())
  expect(await db.cafe.count()).toBe(0)
  await db.$disconnect()
})

test('the second run changes nothing, not even a byte', async () => {
  await migrate(url(), codeSteps)
  const before = readFileSync(file)
  expect(await migrate(url(), codeSteps)).toEqual({ applied: [], copy: null })
  expect(readFileSync(file).equals(before)).toBe(true)
  expect(readdirSync(folder)).toEqual(['kiosk.db'])
})

test('a database that holds something is copied before it changes', async () => {
  await migrate(url(), codeSteps)
  forgetEverything()
  const { applied, copy } = await migrate(url(), codeSteps, noon)
  expect(applied).toEqual(listMigrations())
  expect(copy).toBe(join(folder, 'copies', `kiosk.db.before-${applied[0]}.2026-05-01T12-00-00-000Z`))
  const kept = new Database(copy ?? '', { readonly: true })
  expect(kept.prepare('SELECT note FROM "Kept"').all()).toEqual([{ note: 'ours' }])
  expect(kept.pragma('integrity_check')).toEqual([{ integrity_check: 'ok' }])
  kept.close()
  expect(withFile((db) => db.prepare('SELECT note FROM "Kept"').all())).toEqual([{ note: 'ours' }])
})

test('what is still in the write-ahead log comes along', async () => {
  await migrate(url(), codeSteps)
  forgetEverything()
  const writer = new Database(file)
  writer.pragma('journal_mode = WAL')
  writer.exec(`INSERT INTO "Kept" VALUES ('in the log')`)
  const log = readFileSync(`${file}-wal`)
  const shared = readFileSync(file)
  writer.close()
  // as a power cut leaves it: the file without the row, the log with it
  writeFileSync(file, shared)
  writeFileSync(`${file}-wal`, log)
  await migrate(url(), codeSteps, noon)
  const notes = withFile((db) => db.prepare<[], { note: string }>('SELECT note FROM "Kept"').all())
  expect(notes.map((row) => row.note)).toEqual(['ours', 'in the log'])
})

describe('leaves the file as it was and says why', () => {
  test('when it comes from a newer version', async () => {
    await migrate(url(), codeSteps)
    withFile((db) => {
      db.exec(`UPDATE _prisma_migrations SET migration_name = '9999-from-tomorrow' WHERE rowid = 1`)
    })
    const before = readFileSync(file)
    const error = await refusal(migrate(url(), codeSteps))
    expect(error).toMatchObject({ refusal: { reason: 'newer', unknown: '9999-from-tomorrow' } })
    expect(error).toMatchObject({ message: expect.not.stringContaining('\n') })
    expect(readFileSync(file).equals(before)).toBe(true)
  })

  test('when a migration fails half way', async () => {
    await migrate(url(), codeSteps)
    forgetEverything()
    withFile((db) => db.exec('CREATE TABLE "Seat" (in_the_way TEXT)'))
    const before = readFileSync(file)
    expect(await refusal(migrate(url(), codeSteps, noon))).toMatchObject({ refusal: { reason: 'failed' } })
    expect(readFileSync(file).equals(before)).toBe(true)
    expect(readdirSync(folder).sort()).toEqual(['copies', 'kiosk.db'])
    withFile((db) => db.exec('DROP TABLE "Seat"'))
    expect((await migrate(url(), codeSteps, noon)).applied).toEqual(listMigrations())
  })

  test('when another program has it open', async () => {
    await migrate(url(), codeSteps)
    forgetEverything()
    const other = new Database(file)
    other.pragma('journal_mode = WAL')
    other.prepare('SELECT note FROM "Kept"').all()
    expect(await refusal(migrate(url(), codeSteps))).toMatchObject({ refusal: { reason: 'in-use' } })
    expect(other.prepare('SELECT note FROM "Kept"').all()).toEqual([{ note: 'ours' }])
    other.close()
  })

  test('when it is not a database', async () => {
    writeFileSync(
      file,
      'a shopping list, much longer than one line so that it cannot pass for an empty file\n'.repeat(99),
    )
    expect(await refusal(migrate(url(), codeSteps))).toMatchObject({ refusal: { reason: 'damaged' } })
    expect(readFileSync(file, 'utf8')).toContain('a shopping list')
  })

  test('when it belongs to another program', async () => {
    withFile((db) => db.exec('CREATE TABLE theirs (x)'))
    expect(await refusal(migrate(url(), codeSteps))).toMatchObject({ refusal: { reason: 'failed' } })
    expect(withFile((db) => db.prepare(`SELECT name FROM sqlite_master`).all())).toEqual([{ name: 'theirs' }])
  })

  test('when its folder cannot be made', async () => {
    writeFileSync(join(folder, 'blocked'), '')
    file = join(folder, 'blocked', 'kiosk.db')
    expect(await refusal(migrate(url(), codeSteps))).toMatchObject({ refusal: { reason: 'unreachable' } })
    expect(existsSync(file)).toBe(false)
  })
})
