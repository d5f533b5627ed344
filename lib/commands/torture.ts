/**
 * Does to real houses what may happen to one while sixty phones score, and counts what becomes of every acknowledged score:
 * `npm run torture`, or `npm run torture -- --kills 3 --seed 7 …`. Takes minutes; ends with 1 when anything was lost.
 *
 * Every house has a folder, a database and a port of its own in one temporary folder, which goes with this process.
 */
import { randomInt } from 'node:crypto'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { theDatabase } from '@/lib/db/engine/client'
import { migrate } from '@/lib/db/engine/migrate'
import { seededRandom } from '@/lib/stats/random'
import { foundDemoHouse } from '@/lib/tasks/house/found-demo-house'
import { codeSteps } from '@/lib/tasks/upgrade/code-steps'
import { theWorld } from '@/lib/tasks/world'
import { openRoom } from './bench/open-room'
import { stopChildren } from './start/child.mjs'
import { chooseTorture, type Wanted } from './torture/options'
import { drawTable, isKept, type Row } from './torture/table'
import * as trials from './torture/trials'
import type { Template } from './torture/tried-house'

const say = (words: string) => process.stderr.write(`${words}\n`)
const chosen = chooseTorture(process.argv.slice(2), () => randomInt(2 ** 32))
if (!chosen.ok) {
  say(chosen.problem)
  process.exit(2)
}

const folder = mkdtempSync(join(tmpdir(), 'sipwright-torture-'))
const undo: (() => void)[] = []
const tidy = () => {
  for (const act of undo.splice(0).reverse()) act()
  rmSync(folder, { recursive: true, force: true })
}
for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) {
  process.once(signal, () => void stopChildren().then(() => (tidy(), process.exit(130))))
}
try {
  const rows = await torture(chosen.wanted)
  process.stdout.write(`${drawTable(rows)}\nseed ${chosen.wanted.seed}, ${chosen.wanted.phones} phones\n`)
  process.exitCode = rows.every(isKept) ? 0 : 1
} finally {
  await stopChildren()
  tidy()
}

async function torture(wanted: Wanted): Promise<Row[]> {
  say(`seed ${wanted.seed}`)
  const template = await layTemplate(wanted.phones)
  const scene = {
    template,
    folder,
    wanted,
    random: seededRandom(wanted.seed),
    say,
    atEnd: (act: () => void) => void undo.push(act),
  }
  return [
    await trials.killAndStart(scene),
    await trials.signalAndStart(scene),
    await trials.fillDisk(scene),
    await trials.lockOut(scene),
    await trials.setClockBack(scene),
    await trials.closeInFlight(scene),
  ]
}

/** The invented café with one open panel, as one file that nobody has open. */
async function layTemplate(seats: number): Promise<Template> {
  const file = join(folder, 'template.db')
  const url = `file:${file}`
  process.env['DATABASE_URL'] = url
  await migrate(url, codeSteps)
  const signIn = await foundDemoHouse(theWorld())
  const room = await openRoom(seats)
  await theDatabase().$queryRawUnsafe('PRAGMA wal_checkpoint(TRUNCATE)')
  await theDatabase().$disconnect()
  return { file, room, signIn }
}
