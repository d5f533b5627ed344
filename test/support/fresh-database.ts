/** A database file of its own for one test, copied from a migrated template that the whole run shares. */
import { createHash } from 'node:crypto'
import { copyFileSync, existsSync, mkdirSync, mkdtempSync, readdirSync, renameSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { openDatabase, type Db } from '@/lib/db/engine/client'
import { migrate } from '@/lib/db/engine/migrate'
import { listMigrations, readMigration } from '@/lib/db/engine/schema-engine'
import { codeSteps } from '@/lib/tasks/upgrade/code-steps'

export type FreshDatabase = {
  readonly db: Db
  readonly url: string
  readonly file: string
  /** Closes the database and removes its folder. */
  close(): Promise<void>
}

/** @param from  a database file that nobody has open; left out: one with the schema alone */
export async function freshDatabase(from?: string): Promise<FreshDatabase> {
  const folder = mkdtempSync(join(tmpdir(), 'sipwright-test-'))
  const file = join(folder, 'test.db')
  copyFileSync(from ?? (await migratedTemplate()), file)
  const url = `file:${file}`
  const db = openDatabase(url)
  return {
    db,
    url,
    file,
    close: async () => {
      await db.$disconnect()
      rmSync(folder, { recursive: true, force: true })
    },
  }
}

/** Named for the migrations in it, so that a stale one is never used; test files race for it and any may win. */
async function migratedTemplate(): Promise<string> {
  const marks = createHash('sha256')
  for (const name of listMigrations()) marks.update(`${name}\0${readMigration(name).sql}\0`)
  const folder = join(process.cwd(), 'node_modules', '.cache', 'sipwright-test')
  const template = join(folder, `${marks.digest('hex').slice(0, 24)}.db`)
  if (!existsSync(template)) {
    mkdirSync(folder, { recursive: true })
    const mine = join(mkdtempSync(join(folder, 'making-')), 'template.db')
    await migrate(`file:${mine}`, codeSteps)
    for (const old of readdirSync(folder)) if (old.endsWith('.db')) rmSync(join(folder, old), { force: true })
    renameSync(mine, template)
    rmSync(join(mine, '..'), { recursive: true, force: true })
  }
  return template
}
