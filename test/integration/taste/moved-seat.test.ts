/** A seat card on another phone: what was written before the move is kept in the house and told to no phone any more. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { readProgress } from '@/lib/tasks/pour/read-progress'
import { closePanel } from '@/lib/tasks/pour/close-panel'
import { readResult } from '@/lib/tasks/result/read-result'
import { continueSeat } from '@/lib/tasks/taste/continue-seat'
import { readSeatState } from '@/lib/tasks/taste/read-seat-state'
import { skipServing } from '@/lib/tasks/taste/skip-serving'
import { storeComment } from '@/lib/tasks/taste/store-comment'
import { storeScore } from '@/lib/tasks/taste/store-score'
import { takeSeat } from '@/lib/tasks/taste/take-seat'
import { openPanelForTest, type OpenPanel } from '../../support/open-panel'

const SECRET = 'Wexmoor told me at the door'
const MINUTE = 60_000

let panel: OpenPanel
let first: string
beforeEach(async () => {
  panel = await openPanelForTest()
  first = panel.world.token()
  const card = { kind: 'card', token: panel.seats[0]?.cardToken ?? '' } as const
  await takeSeat(panel.world, card, { browser: first, userId: null, name: 'Ana' })
})
afterEach(() => panel.close())

async function stateOf(browser: string) {
  const state = await readSeatState(panel.world, browser)
  if (!state.ok) throw new Error(state.reason)
  return state.value
}
const say = async (browser: string, comment: string, revision: number, code = '211') =>
  storeComment(panel.world, browser, { sitting: (await stateOf(browser)).sitting, code, comment, revision })
const serving = (code = '211') => panel.db.serving.findFirstOrThrow({ where: { code } })

async function moveOn(): Promise<string> {
  const browser = panel.world.token()
  const moved = await continueSeat(panel.world, panel.seats[0]?.cardToken ?? '', { browser, userId: null })
  expect(moved).toMatchObject({ ok: true })
  return browser
}

test('the moment of a move is kept, and who watches is told when', async () => {
  const reader = { userId: panel.userId, cafeId: panel.cafeId }
  const seats = async () => (await readProgress(panel.world, reader, panel.panelId))?.seats ?? []
  expect((await seats()).map(({ movedAt }) => movedAt)).toEqual([null, null, null])
  panel.pass(5 * MINUTE)
  await moveOn()
  expect(await panel.db.seat.findFirst({ where: { number: 1 } })).toMatchObject({ movedAt: panel.world.now() })
  expect((await seats())[0]?.movedAt).toEqual(panel.world.now())
  // Seats that moved before the moment was kept: since then another browser has them.
  await panel.db.seat.updateMany({ data: { movedAt: null } })
  expect((await seats())[0]?.movedAt).toEqual(panel.world.now())
})

test('a comment has its moment, from the phone', async () => {
  panel.pass(MINUTE)
  await say(first, 'round', 1)
  expect((await serving()).commentAt).toEqual(panel.world.now())
})

test('neither a comment nor a skip’s words of before the move reach the other phone; it hears that one is kept', async () => {
  await say(first, SECRET, 1)
  const { sitting } = await stateOf(first)
  await skipServing(panel.world, first, { sitting, code: '212', reason: 'not-for-me' })
  panel.pass(MINUTE)
  const state = await stateOf(await moveOn())
  expect(JSON.stringify(state)).not.toContain(SECRET)
  expect(JSON.stringify(state)).not.toContain('not-for-me')
  expect(state.cups[0]).toMatchObject({ code: '211', comment: '', commentKept: true })
  expect(state.cups[1]).toMatchObject({ skipped: true, commentKept: false })
  expect(state.cups[2]).toMatchObject({ comment: '', commentKept: false })
})

test('a comment that the house keeps no moment of counts as one of before the move', async () => {
  await say(first, SECRET, 1)
  await panel.db.serving.updateMany({ data: { commentAt: null } })
  expect((await stateOf(first)).cups[0]).toMatchObject({ comment: SECRET, commentKept: false })
  expect((await stateOf(await moveOn())).cups[0]).toMatchObject({ comment: '', commentKept: true })
})

test('what is written after the move replaces it, comes back to that phone, and what stood is shown on the result', async () => {
  await say(first, SECRET, 1)
  panel.pass(MINUTE)
  const second = await moveOn()
  panel.pass(MINUTE)
  expect(await say(second, 'sweet', 2)).toMatchObject({ ok: true })
  expect(await say(second, 'too sweet', 3)).toMatchObject({ ok: true })
  expect((await stateOf(second)).cups[0]).toMatchObject({ comment: 'too sweet', commentKept: false })
  // The second phone's own first words are its own to change: only the other's are kept beside.
  expect(await panel.db.replacedAnswer.findMany()).toMatchObject([
    { comment: SECRET, source: 'phone', revision: 1, replacedById: null, replacedAt: panel.world.now() },
  ])
  await closePanel(panel.world, { userId: panel.userId, cafeId: panel.cafeId }, panel.panelId)
  const result = await readResult(panel.world, { userId: panel.userId, cafeId: panel.cafeId }, panel.panelId)
  expect(result?.corrections).toMatchObject([
    { seat: 1, what: 'comment', stood: SECRET, stands: 'too sweet', by: 'another phone' },
  ])
})

test('scores of cups that are not done go on, and may be changed there as before', async () => {
  const score = { code: '211', attribute: 0, value: 8, revision: 1, key: 'key-number-one' }
  await storeScore(panel.world, first, { ...score, sitting: (await stateOf(first)).sitting })
  const state = await stateOf(await moveOn())
  expect(state.cups[0]?.answers[0]).toEqual({ value: 8, revision: 1 })
})
