/** An upgrade that is broken off anywhere leaves the file as it was, and run again comes to the same end. */
import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { existsSync, readFileSync } from 'node:fs'
import Database from 'better-sqlite3'
import { afterEach, beforeAll, beforeEach, expect, test } from 'vitest'
import { migrate, MigrationRefused, type CodeStep, type CodeSteps } from '@/lib/db/engine/migrate'
import { listMigrations } from '@/lib/db/engine/schema-engine'
import { codeSteps } from '@/lib/tasks/upgrade/code-steps'
import { dump, type Rows } from '../support/dump'
import { copyOfLanded, type LandedCopy } from '../support/landed'

const noon = new Date('2026-11-26T12:00:00Z')
const patient = { timeout: 600_000 }

/** How the first landed database ends, and how many writes its code steps make. */
let end: Rows
let writes = 0
beforeAll(async () => {
  const copy = copyOfLanded('landed-0001-start.db')
  await migrate(
    copy.url,
    counted(codeSteps, () => void writes++),
    noon,
  )
  end = dump(copy.file)
  copy.throwAway()
}, patient.timeout)

let copy: LandedCopy
beforeEach(() => {
  copy = copyOfLanded('landed-0001-start.db')
})
afterEach(() => copy.throwAway())

/** The steps with a word before each write and after the last. */
function counted(steps: CodeSteps, before: (write: number) => void, after: () => void = () => undefined): CodeSteps {
  let write = 0
  const wrapped = (step: CodeStep): CodeStep => {
    return (db, now) => {
      const run: typeof db.run = (sql, ...values) => {
        before(write++)
        db.run(sql, ...values)
      }
      step({ all: (sql, ...values) => db.all(sql, ...values), run }, now)
      after()
    }
  }
  return Object.fromEntries(Object.entries(steps).map(([name, step]) => [name, wrapped(step)]))
}

const appliedIn = (file: string) => {
  const db = new Database(file, { readonly: true })
  const rows = db
    .prepare<[], { name: string }>('SELECT migration_name AS name FROM _prisma_migrations ORDER BY migration_name')
    .all()
  db.close()
  return rows.map((row) => row.name)
}

async function comesToTheEnd(): Promise<void> {
  await migrate(copy.url, codeSteps, noon)
  expect(dump(copy.file)).toEqual(end)
  expect(existsSync(`${copy.file}.migrating`)).toBe(false)
}

test('thrown at any write of the code, the file keeps every byte', patient, async () => {
  expect(writes).toBeGreaterThan(20)
  const before = readFileSync(copy.file)
  for (const at of [0, 1, Math.floor(writes / 2), writes - 1]) {
    const broken = counted(codeSteps, (write) => {
      if (write === at) throw new Error(`broken at write ${at}`)
    })
    await expect(migrate(copy.url, broken, noon)).rejects.toThrow(MigrationRefused)
    expect(readFileSync(copy.file).equals(before)).toBe(true)
  }
  await comesToTheEnd()
})

test('thrown after the code, or by a later migration, the file keeps every byte', patient, async () => {
  const before = readFileSync(copy.file)
  const fails = () => {
    throw new Error('broken afterwards')
  }
  const later = listMigrations().at(-1) ?? ''
  for (const steps of [counted(codeSteps, () => undefined, fails), { ...codeSteps, [later]: fails }]) {
    await expect(migrate(copy.url, steps, noon)).rejects.toThrow(MigrationRefused)
    expect(readFileSync(copy.file).equals(before)).toBe(true)
  }
  await comesToTheEnd()
})

test('a migration that asks for code is refused without it, and the file keeps every byte', async () => {
  const before = readFileSync(copy.file)
  await expect(migrate(copy.url, {}, noon)).rejects.toMatchObject({ refusal: { reason: 'failed' } })
  expect(readFileSync(copy.file).equals(before)).toBe(true)
  expect(appliedIn(copy.file)).toEqual(['0001-start'])
})

/** Runs a process to its end, however it ends. */
async function run(script: string, args: readonly string[], killWhen?: () => boolean): Promise<NodeJS.Signals | null> {
  const child = spawn(process.execPath, ['--import', 'tsx', '--conditions=react-server', script, ...args], {
    env: { ...process.env, DATABASE_URL: copy.url },
    stdio: 'ignore',
  })
  const ended = once(child, 'exit')
  const watch = killWhen && setInterval(() => killWhen() && child.kill('SIGKILL'), 1)
  const [, signal] = (await ended) as [number | null, NodeJS.Signals | null]
  if (watch) clearInterval(watch)
  return signal
}

test.each(['0', '15', 'end'])('killed outright at write %s, and run again', patient, async (when) => {
  const before = dump(copy.file)
  expect(await run('test/support/upgrade-and-die.ts', [copy.url, when])).toBe('SIGKILL')
  expect(dump(copy.file)).toEqual(before)
  expect(appliedIn(copy.file)).toEqual(['0001-start'])
  await comesToTheEnd()
})

test('killed outright as soon as the work aside begins, and run again', patient, async () => {
  const before = dump(copy.file)
  expect(await run('lib/commands/prepare.ts', [], () => existsSync(`${copy.file}.migrating`))).toBe('SIGKILL')
  expect(dump(copy.file)).toEqual(before)
  await comesToTheEnd()
})
