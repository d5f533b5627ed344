/** Databases of landed versions, kept under test/fixtures: each is opened as a copy, brought up to date or not. */
import { copyFileSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { openDatabase, type Db } from '@/lib/db/engine/client'
import { migrate } from '@/lib/db/engine/migrate'
import { codeSteps } from '@/lib/tasks/upgrade/code-steps'

/** Every landed version's database; a later version adds a line. */
export const LANDED = [
  'landed-0001-start.db',
  'landed-0003-aims-and-evidence.db',
  'landed-0004-who-and-how-long.db',
  'landed-0005-how-it-is-brewed.db',
  'landed-0006-the-bars-daily-work.db',
  'landed-0007-kinds-of-panel.db',
] as const
export type Landed = (typeof LANDED)[number]

export type LandedCopy = {
  readonly file: string
  readonly url: string
  /** Removes the copy and its folder. */
  throwAway(): void
}

/** A copy as that version left it. */
export function copyOfLanded(name: Landed): LandedCopy {
  const folder = mkdtempSync(join(tmpdir(), 'sipwright-landed-'))
  const file = join(folder, 'kiosk.db')
  copyFileSync(join(process.cwd(), 'test/fixtures', name), file)
  return { file, url: `file:${file}`, throwAway: () => rmSync(folder, { recursive: true, force: true }) }
}

/** A copy brought up to date and opened. */
export async function openLanded(name: Landed): Promise<LandedCopy & { readonly db: Db; close(): Promise<void> }> {
  const copy = copyOfLanded(name)
  await migrate(copy.url, codeSteps)
  const db = openDatabase(copy.url)
  return {
    ...copy,
    db,
    close: async () => {
      await db.$disconnect()
      copy.throwAway()
    },
  }
}
