import 'server-only'
import { existsSync, readdirSync, rmSync, statSync } from 'node:fs'
import { basename, dirname, join } from 'node:path'
import { writeAudit } from '@/lib/db/audit'
import { inTransaction } from '@/lib/db/engine/transaction'
import type { Tx } from '@/lib/db/engine/client'
import { sweepBrakes } from '@/lib/db/brakes'
import type { ForgottenMark, ForgottenMarks } from '@/lib/db/forgotten-marks'
import {
  clearDeadLinks,
  findCafesWithNameDays,
  findLongestNameDays,
  findNamesBefore,
  findStillKept,
  forgetUser,
  loosenForgottenSeats,
  settleLog,
} from '@/lib/db/privacy'
import { findHomeNamesBefore } from '@/lib/db/home-sheets'
import { endSessions, sweepSessions } from '@/lib/db/sessions'
import type { World } from '../world'
import { forgetTasters } from './forget'
import { forgetHomeAnswers } from './forget-home'

const DAY_MS = 86_400_000

/**
 * What the house does by itself, at each start and once a day: names past their time are forgotten, what was forgotten before
 * an older copy came back is forgotten again, and what is over leaves no address behind. Running it twice changes nothing more.
 *
 * @returns how many names went
 */
export async function tidy(world: World, marks: ForgottenMarks): Promise<number> {
  const again = await forgetAgain(world, marks)
  const due = await inTransaction(world, async (tx) => {
    const due = await forgetDue(world, tx, marks)
    await loosenForgottenSeats(tx)
    await clearDeadLinks(tx, world.now())
    await sweepSessions(tx, world.now())
    await sweepBrakes(tx, new Date(world.now().getTime() - DAY_MS))
    return due
  })
  await settleLog(world.db)
  return again + due
}

async function forgetDue(world: World, tx: Tx, marks: ForgottenMarks): Promise<number> {
  let names = 0
  for (const { id, nameDays } of await findCafesWithNameDays(tx)) {
    if (!nameDays) continue
    const before = new Date(world.now().getTime() - nameDays * DAY_MS)
    const due = await findNamesBefore(tx, id, before)
    await forgetTasters(world, tx, marks, { tasterIds: due, words: false })
    const atHome = await forgetHomeAnswers(tx, marks, { ids: await findHomeNamesBefore(tx, id, before), words: false })
    await noteForgotten(world, tx, id, { tasters: due.length, atHome })
    names += due.length + atHome
  }
  return names
}

/** A copy from before somebody was forgotten has their name in it. @returns how many names went */
export async function forgetAgain(world: World, marks: ForgottenMarks): Promise<number> {
  const marked = marks.all()
  return marked.length === 0 ? 0 : inTransaction(world, (tx) => repeatMarks(world, tx, marked))
}

async function repeatMarks(world: World, tx: Tx, marked: readonly ForgottenMark[]): Promise<number> {
  // They are marked already; a second mark would say nothing more.
  const marks: ForgottenMarks = { all: () => marked, add: () => undefined }
  let names = 0
  for (const words of [true, false]) {
    const ids = marked.filter((mark) => mark.of === 'taster' && mark.words === words).map(({ id }) => id)
    const kept = await findStillKept(tx, ids, words)
    await forgetTasters(world, tx, marks, { tasterIds: kept, words })
    const home = marked.filter((mark) => mark.of === 'home' && mark.words === words).map(({ id }) => id)
    names += kept.length + (await forgetHomeAnswers(tx, marks, { ids: home, words }))
  }
  for (const { id } of marked.filter((mark) => mark.of === 'member')) {
    if (!(await forgetUser(tx, id, world.now()))) continue
    await endSessions(tx, id)
    names += 1
  }
  return names
}

async function noteForgotten(
  world: World,
  tx: Tx,
  cafeId: string,
  { tasters, atHome }: { readonly tasters: number; readonly atHome: number },
): Promise<void> {
  if (tasters + atHome === 0) return
  await writeAudit(tx, {
    id: world.id(),
    cafeId,
    at: world.now(),
    actor: { kind: 'machine' },
    act: 'names-forgotten',
    subjectKind: 'cafe',
    subjectId: cafeId,
    detail: { tasters, ...(atHome > 0 ? { atHome } : {}) },
  })
}

/**
 * Copies of the database from before an upgrade hold names too, and live as long as a name does; they stay while a café has not
 * chosen a time.
 *
 * @returns the copies that went
 */
export async function dropOldCopies(world: World, databaseFile: string): Promise<readonly string[]> {
  const days = await findLongestNameDays(world.db)
  const folder = join(dirname(databaseFile), 'copies')
  if (days === null || !existsSync(folder)) return []
  const before = world.now().getTime() - days * DAY_MS
  const copies = readdirSync(folder)
    .filter((name) => name.startsWith(`${basename(databaseFile)}.before-`))
    .map((name) => ({ path: join(folder, name), at: statSync(join(folder, name)).mtimeMs }))
  const old = copies.filter(({ at }) => at < before)
  for (const { path } of old) rmSync(path)
  return old.map(({ path }) => path)
}
