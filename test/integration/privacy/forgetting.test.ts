/** What is known of a taster can be read by them, goes when they ask or when its time has come, and stays gone. */
import { copyFileSync, existsSync, mkdirSync, readFileSync, utimesSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { openDatabase } from '@/lib/db/engine/client'
import { forgottenMarks, type ForgottenMarks } from '@/lib/db/forgotten-marks'
import { browserHash } from '@/lib/auth/seat-token'
import { makeBackup } from '@/lib/tasks/backup/make-backup'
import { restoreBackup } from '@/lib/tasks/backup/restore-backup'
import { chooseNameDays } from '@/lib/tasks/privacy/choose-name-days'
import { forgetLeaver } from '@/lib/tasks/privacy/forget-leaver'
import { forgetMe, forgetTaster } from '@/lib/tasks/privacy/forget-taster'
import { readKeptOfMe, readKeptOfSeat } from '@/lib/tasks/privacy/read-kept'
import { dropOldCopies, tidy } from '@/lib/tasks/privacy/tidy'
import { readDiary } from '@/lib/tasks/house/read-diary'
import { continueSeat } from '@/lib/tasks/taste/continue-seat'
import { readSeatState } from '@/lib/tasks/taste/read-seat-state'
import { enterPaperScores } from '@/lib/tasks/pour/enter-paper-scores'
import { putSeatOnPaper } from '@/lib/tasks/pour/put-seat-on-paper'
import { readPaperSeat } from '@/lib/tasks/pour/read-paper-seat'
import { storeComment } from '@/lib/tasks/taste/store-comment'
import { storeScore } from '@/lib/tasks/taste/store-score'
import { takeSeat } from '@/lib/tasks/taste/take-seat'
import { worldOf, type Actor } from '@/lib/tasks/world'
import { openPanelForTest, type OpenPanel } from '../../support/open-panel'

const DAY_MS = 86_400_000
const browser = 'b'.repeat(43)
/** Long, so that what is freed when it goes is more than what is written in its place. */
const written = `Zwenna at the quay says: ${'It was sweet, and sweeter still. '.repeat(20)}`.trim()

let panel: OpenPanel
let marks: ForgottenMarks
let actor: Actor
let file: string

beforeEach(async () => {
  panel = await openPanelForTest()
  actor = { cafeId: panel.cafeId, userId: panel.userId }
  file = panel.url.replace('file:', '')
  marks = forgottenMarks(file)
})
afterEach(() => panel.close())

/** Zwenna takes seat 1, scores her first cup and writes something. */
async function tastes(): Promise<void> {
  const { world } = panel
  const by = { browser, userId: null, openings: [], name: 'Zwenna' }
  const taken = await takeSeat(world, { kind: 'card', token: panel.seats[0]?.cardToken ?? '' }, by)
  if (!taken.ok) throw new Error(taken.reason)
  const code = await firstCode()
  const state = await readSeatState(world, browser)
  if (!state.ok) throw new Error(state.reason)
  const message = { sitting: state.value.sitting, code, key: 'k'.repeat(21), revision: 1 }
  const stored = await storeScore(world, browser, { ...message, attribute: 0, value: 7 })
  if (!stored.ok) throw new Error(stored.reason)
  const kept = await storeComment(world, browser, { ...message, comment: written })
  if (!kept.ok) throw new Error(kept.reason)
}

async function firstCode(): Promise<string> {
  const where = { seatId: panel.seats[0]?.id ?? '', position: 1 }
  return (await panel.db.serving.findFirstOrThrow({ where, select: { code: true } })).code
}

const seat = () => panel.db.seat.findFirstOrThrow({ where: { number: 1 }, include: { taster: true, servings: true } })
const closes = () => panel.db.panel.updateMany({ data: { stage: 'closed', closedAt: panel.world.now() } })
const scores = () => panel.db.score.count()
/** The bytes of the file itself, once the log has been brought into it. */
const inTheFile = (words: string) =>
  readFileSync(file).includes(words) || (existsSync(`${file}-wal`) && readFileSync(`${file}-wal`).includes(words))

test('a taster takes their own name out by the phone that holds the seat; the scores stay, and so does what was written', async () => {
  await tastes()
  expect(await forgetMe(panel.world, marks, { by: 'phone', browser }, false)).toMatchObject({ ok: true })
  const { taster, browserHash: hash, servings } = await seat()
  expect([taster?.name, taster?.forgottenAt]).toEqual([null, panel.world.now()])
  // While the panel is open the phone keeps its seat.
  expect(hash).toBe(browserHash(browser))
  expect([await scores(), servings.filter(({ comment }) => comment !== null).length]).toEqual([1, 1])
  expect(await forgetMe(panel.world, marks, { by: 'phone', browser: 'x'.repeat(43) }, false)).toMatchObject({
    reason: 'no-taster',
  })
})

test('by the card as well, and with what was written, wherever it stands', async () => {
  await tastes()
  const { servings } = await seat()
  const replaced = {
    id: 'r',
    cafeId: panel.cafeId,
    servingId: servings[0]?.id ?? '',
    comment: 'Zwenna again',
    revision: 1,
  }
  await panel.db.replacedAnswer.create({ data: { ...replaced, source: 'paper', replacedAt: panel.world.now() } })
  const card = { by: 'card', cardToken: panel.seats[0]?.cardToken ?? '' } as const
  await closes()
  expect(await forgetMe(panel.world, marks, card, true)).toMatchObject({ ok: true })
  expect(await panel.db.serving.count({ where: { comment: { not: null } } })).toBe(0)
  expect(await panel.db.replacedAnswer.count({ where: { comment: { not: null } } })).toBe(0)
  expect(await scores()).toBe(1)
})

test('whoever runs the panel forgets a taster who asks them, in their own café alone, and the diary keeps the act', async () => {
  await tastes()
  const wanted = { panelId: panel.panelId, seat: 1, words: false }
  const elsewhere = { ...actor, cafeId: 'another' }
  expect(await forgetTaster(panel.world, marks, elsewhere, wanted)).toMatchObject({ reason: 'no-taster' })
  expect(await forgetTaster(panel.world, marks, actor, { ...wanted, seat: 2 })).toMatchObject({ reason: 'no-taster' })
  expect(await forgetTaster(panel.world, marks, actor, wanted)).toMatchObject({ ok: true })
  expect((await seat()).taster?.name).toBeNull()
  const row = await panel.db.auditRow.findFirstOrThrow({ where: { act: 'taster-forgotten' } })
  expect([row.actorId, row.detail]).toEqual([actor.userId, JSON.stringify({ seat: 1, comments: false })])
})

test('a sheet of a taster who was forgotten is corrected still, and does not bring the name back', async () => {
  const { world, panelId } = panel
  await putSeatOnPaper(world, actor, panelId, 1)
  const code = await firstCode()
  const typeIn = async (value: number) =>
    enterPaperScores(world, actor, panelId, {
      ...{ seat: 1, name: 'Zwenna', unaffected: 'yes', consent: 'yes', unseen: 'yes' },
      was: (await readPaperSeat(world, actor, panelId, 1))?.was ?? '',
      cups: [{ code, answers: [value], skip: null, comment: null }],
    })
  expect(await typeIn(6)).toMatchObject({ ok: true })
  expect(await forgetTaster(world, marks, actor, { panelId, seat: 1, words: false })).toMatchObject({ ok: true })
  expect(await readPaperSeat(world, actor, panelId, 1)).toMatchObject({ name: null, isForgotten: true })
  expect(await typeIn(7)).toMatchObject({ ok: true })
  expect((await seat()).taster?.name).toBeNull()
  expect(await panel.db.score.findFirst({ select: { value: true } })).toEqual({ value: 7 })
})

test('names go by themselves when their time has come; in a café that has not chosen, nothing goes', async () => {
  await tastes()
  await closes()
  panel.pass(400 * DAY_MS)
  expect(await tidy(panel.world, marks)).toBe(0)
  expect((await seat()).taster?.name).toBe('Zwenna')
  panel.pass(-310 * DAY_MS)
  expect(await chooseNameDays(panel.world, marks, actor, 90, null)).toMatchObject({ ok: true, value: 0 })
  panel.pass(1000)
  expect(await tidy(panel.world, marks)).toBe(1)
  const { taster, browserHash: hash, memberId } = await seat()
  expect([taster?.name, hash, memberId]).toEqual([null, null, null])
  expect(await scores()).toBe(1)
  expect(await panel.db.auditRow.findFirstOrThrow({ where: { act: 'names-forgotten' } })).toMatchObject({
    actorKind: 'machine',
    detail: JSON.stringify({ tasters: 1 }),
  })
  expect(await tidy(panel.world, marks)).toBe(0)
})

test('choosing a time lets go at once of what is past it; 0 keeps names until somebody asks; a choice made elsewhere is told', async () => {
  await tastes()
  await closes()
  panel.pass(31 * DAY_MS)
  expect(await chooseNameDays(panel.world, marks, actor, 0, null)).toMatchObject({ ok: true, value: 0 })
  expect(await tidy(panel.world, marks)).toBe(0)
  expect(await chooseNameDays(panel.world, marks, actor, 30, 'an older mark')).toMatchObject({
    reason: 'saved-elsewhere',
  })
  expect(await chooseNameDays(panel.world, marks, actor, 30, null)).toMatchObject({ ok: true, value: 1 })
})

test('a copy from before is forgotten again when it comes back, comments and members too', async () => {
  await tastes()
  await closes()
  await panel.db.membership.updateMany({ data: { removedAt: panel.world.now() } })
  await panel.db.user.updateMany({ data: { name: 'Quendrik', email: 'quendrik@example.test' } })
  await panel.db.$executeRawUnsafe('PRAGMA wal_checkpoint(TRUNCATE)')
  const older = `${file}.older`
  copyFileSync(file, older)
  await forgetTaster(panel.world, marks, actor, { panelId: panel.panelId, seat: 1, words: true })
  await forgetLeaver(panel.world, marks, actor, panel.userId)
  expect(readFileSync(`${file}.forgotten`, 'utf8')).not.toMatch(/Zwenna|Quendrik/)

  const db = openDatabase(`file:${older}`)
  const world = { ...worldOf(db), now: panel.world.now }
  // A line that a power cut broke off stands in nobody's way.
  writeFileSync(`${file}.forgotten`, '\n{"of":"tas', { flag: 'a' })
  expect(await tidy(world, marks)).toBe(2)
  expect(await db.taster.count({ where: { name: { not: null } } })).toBe(0)
  expect(await db.serving.count({ where: { comment: { not: null } } })).toBe(0)
  expect(await db.user.findMany({ select: { name: true, passwordHash: true } })).toEqual([
    { name: '', passwordHash: '' },
  ])
  expect(await tidy(world, marks)).toBe(0)
  await db.$disconnect()
})

test('restoring a backup from before forgets again whom the house has forgotten since, and opens nothing that was open then', async () => {
  await tastes()
  await closes()
  const archive = `${file}.zip`
  const { world, db: before } = panel
  const expiresAt = new Date(world.now().getTime() + DAY_MS)
  const opens = { createdAt: world.now(), expiresAt }
  await before.session.create({ data: { id: 's', userId: panel.userId, browser: 'Firefox on Linux', ...opens } })
  await before.oneTimeLink.create({ data: { id: 'l', kind: 'reset', tokenHash: 'h', ...opens } })
  await makeBackup(file, archive, new Date())
  await forgetTaster(panel.world, marks, actor, { panelId: panel.panelId, seat: 1, words: true })
  await panel.db.$disconnect()
  await restoreBackup({ archive, database: file, overwrite: true, now: new Date() })
  const db = openDatabase(`file:${file}`)
  expect(await db.taster.findMany({ select: { name: true } })).toEqual([{ name: null }])
  expect(await db.serving.count({ where: { comment: { not: null } } })).toBe(0)
  expect(await db.score.count()).toBe(1)
  expect(await db.session.count()).toBe(0)
  expect(await db.oneTimeLink.count({ where: { voidedAt: null } })).toBe(0)
  await db.$disconnect()
})

test('what was forgotten is not left behind in the file', async () => {
  await tastes()
  await closes()
  await tidy(panel.world, marks)
  expect(inTheFile('Zwenna')).toBe(true)
  await forgetTaster(panel.world, marks, actor, { panelId: panel.panelId, seat: 1, words: true })
  await tidy(panel.world, marks)
  expect(inTheFile('Zwenna')).toBe(false)
})

test('who left goes from the diary by name, the act stays; who works here cannot be forgotten', async () => {
  const { world, db } = panel
  await db.user.updateMany({ data: { name: 'Quendrik', email: 'quendrik@example.test' } })
  await db.auditRow.create({
    data: {
      id: 'a',
      cafeId: panel.cafeId,
      at: world.now(),
      actorId: panel.userId,
      actorKind: 'member',
      act: 'panel-opened',
      subjectKind: 'panel',
      subjectId: panel.panelId,
    },
  })
  expect(await forgetLeaver(world, marks, actor, panel.userId)).toMatchObject({ reason: 'not-a-leaver' })
  await db.membership.updateMany({ data: { removedAt: world.now() } })
  expect(await forgetLeaver(world, marks, { ...actor, cafeId: 'x' }, panel.userId)).toMatchObject({
    reason: 'not-a-leaver',
  })
  expect(await forgetLeaver(world, marks, actor, panel.userId)).toMatchObject({ ok: true })
  const { lines } = await readDiary(world, actor, null)
  expect(lines.map(({ who, act }) => `${who}: ${act}`)).toContain('somebody who left: panel-opened')
  expect(JSON.stringify(await db.user.findMany())).not.toMatch(/quendrik/i)
})

test('all that is kept: the phone sees everything, the card and the house no answer before closing', async () => {
  await tastes()
  const code = await firstCode()
  const byPhone = await readKeptOfMe(panel.world, { by: 'phone', browser })
  expect(byPhone).toMatchObject({ name: 'Zwenna', seat: 1, hasBrowser: true, nameDays: null })
  expect(byPhone?.cups?.[0]).toMatchObject({
    code,
    answers: [{ question: 'Overall liking', said: '7' }],
    comment: written,
  })
  const card = { by: 'card', cardToken: panel.seats[0]?.cardToken ?? '' } as const
  const hidden = [await readKeptOfMe(panel.world, card), await readKeptOfSeat(panel.world, actor, panel.panelId, 1)]
  expect(hidden.map((kept) => [kept?.name, kept?.cups])).toEqual([
    ['Zwenna', null],
    ['Zwenna', null],
  ])
  await closes()
  expect((await readKeptOfMe(panel.world, card))?.cups?.[0]?.answers).toHaveLength(1)
  expect((await readKeptOfSeat(panel.world, actor, panel.panelId, 1))?.cups?.[0]?.answers).toHaveLength(1)
  expect(await readKeptOfSeat(panel.world, { ...actor, cafeId: 'x' }, panel.panelId, 1)).toBeNull()
  for (const secret of panel.secrets) expect(JSON.stringify(byPhone)).not.toContain(secret)
})

test('whoever goes on with a seat by its card reads no answer of before and takes out no comment while the panel is open', async () => {
  await tastes()
  const cardToken = panel.seats[0]?.cardToken ?? ''
  const finder = 'f'.repeat(43)
  const card = { by: 'card', cardToken } as const
  expect(await forgetMe(panel.world, marks, card, true)).toMatchObject({ ok: true })
  panel.pass(1000)
  const moved = await continueSeat(panel.world, cardToken, { browser: finder, userId: null, openings: [] })
  expect(moved).toMatchObject({ ok: true })
  const byFinder = { by: 'phone', browser: finder } as const
  expect(await readKeptOfMe(panel.world, byFinder)).toMatchObject({ hasBrowser: true, cups: null })
  expect(await forgetMe(panel.world, marks, byFinder, true)).toMatchObject({ ok: true })
  expect((await seat()).servings.map(({ comment }) => comment)).toContain(written)
  await closes()
  expect((await readKeptOfMe(panel.world, card))?.cups?.[0]).toMatchObject({ comment: written })
  expect(await forgetMe(panel.world, marks, card, true)).toMatchObject({ ok: true })
  expect(await panel.db.serving.count({ where: { comment: { not: null } } })).toBe(0)
})

test('a dead link says no more whom it was for, and copies of the database live as long as a name', async () => {
  const { world, db } = panel
  const link = { cafeId: panel.cafeId, kind: 'invite', email: 'Quendrik, weekends', createdAt: world.now() }
  const expiresAt = new Date(world.now().getTime() + DAY_MS)
  await db.oneTimeLink.create({ data: { ...link, id: 'open', tokenHash: 'a', expiresAt } })
  await db.oneTimeLink.create({ data: { ...link, id: 'used', tokenHash: 'b', expiresAt, usedAt: world.now() } })
  await tidy(world, marks)
  const said = await db.oneTimeLink.findMany({ orderBy: { id: 'asc' }, select: { email: true } })
  expect(said.map(({ email }) => email)).toEqual(['Quendrik, weekends', null])

  const copies = join(dirname(file), 'copies')
  mkdirSync(copies)
  const old = join(copies, 'test.db.before-0004.x')
  writeFileSync(old, '')
  const young = join(copies, 'test.db.before-0005.x')
  writeFileSync(young, '')
  const other = join(copies, 'another.txt')
  writeFileSync(other, '')
  const day = (days: number) => new Date(world.now().getTime() - days * DAY_MS)
  utimesSync(old, day(91), day(91))
  utimesSync(other, day(91), day(91))
  utimesSync(young, day(89), day(89))
  expect(await dropOldCopies(world, file)).toEqual([])
  await chooseNameDays(world, marks, actor, 90, null)
  expect(await dropOldCopies(world, file)).toEqual([old])
  expect([existsSync(old), existsSync(young), existsSync(other)]).toEqual([false, true, true])
})
