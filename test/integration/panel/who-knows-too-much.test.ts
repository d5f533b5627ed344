/** Who knows too much does not taste, whichever came first: the seat or the list. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { PaperForm } from '@/lib/forms/paper-form'
import { closePanel } from '@/lib/tasks/pour/close-panel'
import { continueSeat } from '@/lib/tasks/taste/continue-seat'
import { enterPaperScores } from '@/lib/tasks/pour/enter-paper-scores'
import { exportPanel, exportScores } from '@/lib/tasks/result/export-panel'
import { lockServing } from '@/lib/tasks/taste/lock-serving'
import { meetMember } from '@/lib/tasks/taste/meet-member'
import { openList } from '@/lib/tasks/pour/open-list'
import { openPanel } from '@/lib/tasks/pour/open-panel'
import { passPhoneOn } from '@/lib/tasks/taste/pass-phone-on'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { putSeatOnPaper } from '@/lib/tasks/pour/put-seat-on-paper'
import { readPanel } from '@/lib/tasks/plan/read-panel'
import { readListHead, readServingList } from '@/lib/tasks/pour/read-pouring-list'
import { readProgress } from '@/lib/tasks/pour/read-progress'
import { readResult } from '@/lib/tasks/result/read-result'
import { readSeatState } from '@/lib/tasks/taste/read-seat-state'
import { skipServing } from '@/lib/tasks/taste/skip-serving'
import { storeComment } from '@/lib/tasks/taste/store-comment'
import { storeScore } from '@/lib/tasks/taste/store-score'
import { takeSeat } from '@/lib/tasks/taste/take-seat'
import type { Actor } from '@/lib/tasks/world'
import { cafeForTest, type TestCafe } from '../../support/cafe'

let cafe: TestCafe
let panelId: string
let joinToken: string
beforeEach(async () => {
  cafe = await cafeForTest()
  const planned = await planPanel(cafe.world, cafe.owner, cafe.recipeId, cafe.plan())
  if (!planned.ok) throw new Error(planned.reason)
  panelId = planned.value
  await openPanel(cafe.world, cafe.owner, panelId)
  joinToken = (await cafe.db.panel.findUniqueOrThrow({ where: { id: panelId } })).joinToken
})
afterEach(() => cafe.close())

const MINUTE = 60_000
const token = () => cafe.world.token()
const seatRow = (number: number) => cafe.db.seat.findFirstOrThrow({ where: { panelId, number } })

const take = (browser: string, member: Actor | null, openings: readonly string[] = [], name = 'Ana') =>
  takeSeat(cafe.world, { kind: 'join', token: joinToken }, { browser, userId: member?.userId ?? null, name, openings })

const open = (member: Actor, list: 'filling' | 'serving', browser: string | null = null, agreed = false) =>
  openList(cafe.world, member, panelId, list, { browser, agreed })

let sent = 0
async function score(browser: string, cup: number, value: number, attribute = 0) {
  const state = await readSeatState(cafe.world, browser)
  const { sitting = '', cups = [] } = state.ok ? state.value : {}
  const key = `a-key-of-its-own-${(sent += 1)}`
  const code = cups[cup]?.code ?? (await anyCode(browser, cup))
  return storeScore(cafe.world, browser, { sitting, code, attribute, value, revision: sent, key })
}
/** A phone that is told no codes any more still has them on its screen. */
async function anyCode(browser: string, cup: number): Promise<string> {
  const state = await readSeatState(cafe.world, browser)
  const number = state.ok ? state.value.seat : 0
  const servings = await cafe.db.serving.findMany({
    where: { seat: { panelId, number } },
    orderBy: { position: 'asc' },
  })
  return servings[cup]?.code ?? ''
}

test('the member signed in on the browser that takes a seat stays with the seat', async () => {
  await take(token(), cafe.pourer)
  await take(token(), null)
  expect((await seatRow(1)).memberId).toBe(cafe.pourer.userId)
  expect((await seatRow(2)).memberId).toBeNull()
})

test('the serving list alone bars from a seat; the filling list alone does not', async () => {
  await open(cafe.pourer, 'serving')
  await open(cafe.secondOwner, 'filling')
  expect(await take(token(), cafe.pourer)).toMatchObject({ ok: false, reason: 'opened-serving-list' })
  expect(await take(token(), cafe.secondOwner)).toMatchObject({ ok: true })
  await open(cafe.pourer, 'filling')
  expect(await take(token(), cafe.pourer)).toMatchObject({ ok: false, reason: 'opened-both-lists' })
  const { cardToken } = await seatRow(1)
  const by = { browser: token(), userId: cafe.pourer.userId }
  expect(await continueSeat(cafe.world, cardToken, by)).toMatchObject({ reason: 'opened-both-lists' })
})

test('who holds a seat is asked before a list opens, and nothing is shown or written without a yes', async () => {
  await take(token(), cafe.pourer)
  for (const list of ['serving', 'filling'] as const) {
    expect(await open(cafe.pourer, list)).toMatchObject({ ok: false, reason: 'holds-seat' })
    expect((await readListHead(cafe.world, cafe.pourer, panelId, list))?.holds).toEqual([1])
  }
  expect(await cafe.db.listOpening.count()).toBe(0)
  expect((await seatRow(1)).barredAt).toBeNull()
  expect((await readListHead(cafe.world, cafe.secondOwner, panelId, 'serving'))?.holds).toEqual([])
})

test('a seat first and the serving list afterwards: what was scored before counts, nothing after is taken', async () => {
  const browser = token()
  await take(browser, cafe.pourer)
  expect(await score(browser, 0, 8)).toMatchObject({ ok: true })
  const held = await readSeatState(cafe.world, browser)
  const sitting = held.ok ? held.value.sitting : ''
  const code = held.ok ? (held.value.cups[1]?.code ?? '') : ''
  cafe.pass(MINUTE)
  const opened = await open(cafe.pourer, 'serving', null, true)
  expect(opened.ok && (await readServingList(cafe.world, cafe.pourer, panelId, opened.value))).toHaveLength(6)

  expect(await seatRow(1)).toMatchObject({ barredAt: cafe.world.now(), barredWhy: 'opened-serving-list' })
  const message = { sitting, code, revision: 9, key: 'a-key-after-the-list' }
  const refused = { ok: false, reason: 'knows-too-much' }
  expect(await storeScore(cafe.world, browser, { ...message, attribute: 0, value: 9 })).toMatchObject(refused)
  expect(await storeComment(cafe.world, browser, { ...message, comment: 'x' })).toMatchObject(refused)
  expect(await skipServing(cafe.world, browser, { ...message, reason: 'rather-not' })).toMatchObject(refused)
  expect(await lockServing(cafe.world, browser, message)).toMatchObject(refused)
  expect(await readSeatState(cafe.world, browser)).toMatchObject({ value: { gone: 'knows-too-much', cups: [] } })
  expect(await cafe.db.score.count()).toBe(1)

  const progress = await readProgress(cafe.world, cafe.owner, panelId)
  expect(progress?.seats[0]).toMatchObject({ state: 'barred', barred: 'opened-serving-list' })
  const panel = await readPanel(cafe.world, cafe.owner, panelId)
  expect(panel?.cannotTaste).toEqual([{ name: 'Percival', why: 'opened-serving-list' }])
  expect(panel?.barredSeats).toEqual([1])
  const line = await cafe.db.auditRow.findFirstOrThrow({ where: { act: 'seat-barred' } })
  expect(JSON.parse(line.detail ?? '{}')).toEqual({ seat: 1, why: 'opened-serving-list' })

  await closePanel(cafe.world, cafe.owner, panelId)
  const result = await readResult(cafe.world, cafe.owner, panelId)
  expect(result?.missing.barred).toMatchObject([{ seat: 1, why: 'opened-serving-list', counted: 1, apart: 0 }])
  expect(result?.spread.flatMap(({ counts }) => counts).reduce((a, b) => a + b)).toBe(1)
  // After closing too: what waited on the phone is not even kept as late.
  expect(await storeScore(cafe.world, browser, { ...message, attribute: 0, value: 9 })).toMatchObject(refused)
  expect(await cafe.db.lateScore.count()).toBe(0)
})

test('the filling list with a seat is warned of and leaves the seat; with the serving list the reason is both', async () => {
  const browser = token()
  await take(browser, cafe.pourer)
  expect(await open(cafe.pourer, 'filling', null, true)).toMatchObject({ ok: true })
  expect((await seatRow(1)).barredAt).toBeNull()
  expect(await score(browser, 0, 8)).toMatchObject({ ok: true })
  await open(cafe.pourer, 'serving', null, true)
  expect((await seatRow(1)).barredWhy).toBe('opened-both-lists')
})

test('a seat taken signed out, then the list opened on the same browser: the two are connected', async () => {
  const browser = token()
  await take(browser, null)
  expect((await readListHead(cafe.world, cafe.pourer, panelId, 'serving', browser))?.holds).toEqual([1])
  expect(await open(cafe.pourer, 'serving', browser)).toMatchObject({ reason: 'holds-seat' })
  await open(cafe.pourer, 'serving', browser, true)
  expect(await seatRow(1)).toMatchObject({ memberId: cafe.pourer.userId, barredWhy: 'opened-serving-list' })
  expect(await score(browser, 0, 8)).toMatchObject({ ok: false, reason: 'knows-too-much' })
})

test('a seat taken signed out, then signed in on that browser: the list opened elsewhere closes it', async () => {
  const browser = token()
  await take(browser, null)
  await meetMember(cafe.world, browser, cafe.pourer.userId)
  expect(await seatRow(1)).toMatchObject({ memberId: cafe.pourer.userId, barredAt: null })
  await open(cafe.pourer, 'serving', token(), true)
  expect(await score(browser, 0, 8)).toMatchObject({ reason: 'knows-too-much' })
})

test('the list opened elsewhere first, a seat taken signed out, then signed in: what was scored is set apart', async () => {
  const opened = cafe.world.now()
  await open(cafe.pourer, 'serving')
  cafe.pass(MINUTE)
  const [knowing, blind] = [token(), token()]
  await take(knowing, null)
  await take(blind, null, [], 'Ben')
  for (const cup of [0, 1, 2]) {
    await score(knowing, cup, 9)
    await score(blind, cup, 4)
  }
  cafe.pass(MINUTE)
  await meetMember(cafe.world, knowing, cafe.pourer.userId)
  expect(await seatRow(1)).toMatchObject({ barredAt: opened, barredWhy: 'opened-serving-list' })
  await closePanel(cafe.world, cafe.owner, panelId)

  const result = await readResult(cafe.world, cafe.owner, panelId)
  expect(result?.missing.barred).toMatchObject([{ seat: 1, counted: 0, apart: 3, at: opened }])
  // Three fours of the blind taster are all that counts.
  expect(result?.spread.map(({ counts }) => counts)).toEqual(Array(3).fill([0, 0, 0, 1, 0, 0, 0, 0, 0]))
  const csv = (await exportScores(cafe.world, cafe.owner, panelId)) ?? ''
  const [head = '', ...lines] = csv.trim().split('\r\n')
  const column = (name: string) => head.split(',').indexOf(name)
  const cells = (seat: string) =>
    lines
      .map((line) => line.split(','))
      .filter((cell) => cell[column('taster')] === seat && cell[column('attribute')] === 'Overall liking')
      .map((cell) => [cell[column('score')], cell[column('set_apart_score')]].join('|'))
  expect(cells('1')).toEqual(['|9', '|9', '|9'])
  expect(cells('2')).toEqual(['4|', '4|', '4|'])
  const whole = JSON.parse((await exportPanel(cafe.world, cafe.owner, panelId)) ?? '{}')
  expect(whole.barredSeats).toEqual([{ seat: 1, why: 'opened-serving-list', since: opened.toISOString() }])
})

test('signed out again after the list, on the same browser: the browser itself is turned away', async () => {
  const opened = await open(cafe.pourer, 'serving')
  const openings = [opened.ok ? opened.value : '']
  expect(await take(token(), null, openings)).toMatchObject({ ok: false, reason: 'opened-serving-list' })
  await take(token(), null)
  const { cardToken } = await seatRow(1)
  const by = { browser: token(), userId: null, openings }
  expect(await continueSeat(cafe.world, cardToken, by)).toMatchObject({ reason: 'opened-serving-list' })
  // An opening of another panel, or one made up, says nothing here.
  expect(await take(token(), null, ['made-up-made-up-made-u'], 'Cy')).toMatchObject({ ok: true })
})

test('another member who opens the list on a taster’s browser closes that seat from then on', async () => {
  const browser = token()
  await open(cafe.pourer, 'serving')
  cafe.pass(MINUTE)
  await take(browser, cafe.secondOwner)
  await score(browser, 0, 8)
  cafe.pass(MINUTE)
  await open(cafe.pourer, 'serving', browser, true)
  expect(await seatRow(1)).toMatchObject({ memberId: cafe.secondOwner.userId, barredAt: cafe.world.now() })
})

test('a finished seat is not asked about, and what it said counts whole', async () => {
  const browser = token()
  await take(browser, cafe.pourer)
  for (const cup of [0, 1, 2]) {
    await score(browser, cup, 7)
    await score(browser, cup, 6, 1)
  }
  await cafe.db.serving.updateMany({ where: { seat: { number: 1 } }, data: { lockedAt: cafe.world.now() } })
  cafe.pass(MINUTE)
  expect((await readListHead(cafe.world, cafe.pourer, panelId, 'serving'))?.holds).toEqual([])
  expect(await open(cafe.pourer, 'serving')).toMatchObject({ ok: true })
  const progress = await readProgress(cafe.world, cafe.owner, panelId)
  expect(progress?.seats[0]).toMatchObject({ state: 'finished', barred: 'opened-serving-list' })
  await closePanel(cafe.world, cafe.owner, panelId)
  const result = await readResult(cafe.world, cafe.owner, panelId)
  expect(result?.missing.barred).toMatchObject([{ seat: 1, counted: 3, apart: 0 }])
})

test('a phone that was passed on: the seat before is not put down to who signs in on it later', async () => {
  const browser = token()
  await take(browser, null)
  await passPhoneOn(cafe.world, browser)
  await open(cafe.pourer, 'serving', browser)
  expect(await seatRow(1)).toMatchObject({ memberId: null, barredAt: null })
})

test('a seat goes on on a phone with another member signed in: that member is the one who tastes there', async () => {
  await take(token(), cafe.pourer)
  const { cardToken } = await seatRow(1)
  const browser = token()
  await continueSeat(cafe.world, cardToken, { browser, userId: cafe.secondOwner.userId })
  expect((await seatRow(1)).memberId).toBe(cafe.secondOwner.userId)
  expect(await open(cafe.pourer, 'serving')).toMatchObject({ ok: true })
  expect((await seatRow(1)).barredAt).toBeNull()
})

test('a barred seat takes no scores from paper either', async () => {
  const browser = token()
  await take(browser, cafe.pourer)
  const code = await anyCode(browser, 0)
  await open(cafe.pourer, 'serving', null, true)
  expect(await putSeatOnPaper(cafe.world, cafe.owner, panelId, 1)).toEqual({ ok: false, reason: 'barred' })
  await cafe.db.seat.updateMany({ where: { panelId, number: 1 }, data: { onPaper: true } })
  const sheet = PaperForm.parse({
    seat: '1',
    name: 'Ana',
    unaffected: 'yes',
    consent: 'yes',
    unseen: 'yes',
    cups: [{ code, answers: ['9'] }],
  })
  expect(await enterPaperScores(cafe.world, cafe.owner, panelId, sheet)).toMatchObject({ reason: 'barred' })
  expect(await cafe.db.score.count()).toBe(0)
})

test('the member is met once, only in an open panel, and a browser without a seat is nobody', async () => {
  const browser = token()
  await take(browser, null)
  await meetMember(cafe.world, token(), cafe.pourer.userId)
  await closePanel(cafe.world, cafe.owner, panelId)
  await meetMember(cafe.world, browser, cafe.pourer.userId)
  expect((await seatRow(1)).memberId).toBeNull()
})
