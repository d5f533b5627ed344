import { afterEach, beforeEach, expect, test } from 'vitest'
import { lockServing } from '@/lib/tasks/taste/lock-serving'
import { markCodeSeen } from '@/lib/tasks/taste/mark-code-seen'
import { readSeatState } from '@/lib/tasks/taste/read-seat-state'
import { skipServing } from '@/lib/tasks/taste/skip-serving'
import { storeComment } from '@/lib/tasks/taste/store-comment'
import { storeScore } from '@/lib/tasks/taste/store-score'
import { takeSeat } from '@/lib/tasks/taste/take-seat'
import { openPanelForTest, type OpenPanel } from '../../support/open-panel'

let panel: OpenPanel
let browser: string
let sitting: string

beforeEach(async () => {
  panel = await openPanelForTest()
  browser = panel.world.token()
  const door = { kind: 'join', token: panel.joinToken } as const
  await takeSeat(panel.world, door, { browser, userId: null, name: 'Ana' })
  const state = await readSeatState(panel.world, browser)
  sitting = state.ok ? state.value.sitting : ''
})

afterEach(() => panel.close())

const score = (
  more: Partial<{ code: string; attribute: number; value: number; revision: number; key: string }> = {},
) => ({
  sitting,
  code: '211',
  attribute: 0,
  value: 7,
  revision: 1,
  key: 'key-number-one',
  ...more,
})
const at = (code: string) => ({ sitting, code })
const scores = () => panel.db.score.findMany({ select: { value: true, revision: true, key: true, source: true } })
const acts = async () => (await panel.db.auditRow.findMany({ select: { act: true } })).map(({ act }) => act)

test('a score is stored with its diary line, which does not say what was scored', async () => {
  expect(await storeScore(panel.world, browser, score())).toEqual({ ok: true, value: { value: 7, revision: 1 } })
  expect(await scores()).toEqual([{ value: 7, revision: 1, key: 'key-number-one', source: 'phone' }])
  const [line] = await panel.db.auditRow.findMany({ where: { act: 'score-stored' } })
  expect(line).toMatchObject({ actorKind: 'taster', actorId: null, detail: '{"attribute":0,"revision":1}' })
})

test('the same sending twice, even at once, stores one score and answers the same', async () => {
  const answers = await Promise.all([1, 2, 3].map(() => storeScore(panel.world, browser, score())))
  for (const answer of answers) expect(answer).toEqual({ ok: true, value: { value: 7, revision: 1 } })
  expect(await scores()).toHaveLength(1)
  expect((await acts()).filter((act) => act.startsWith('score'))).toEqual(['score-stored'])
})

test('a newer revision replaces, an older one never does and is told what stands', async () => {
  await storeScore(panel.world, browser, score())
  await storeScore(panel.world, browser, score({ value: 3, revision: 3, key: 'key-number-three' }))
  const late = await storeScore(panel.world, browser, score({ value: 9, revision: 2, key: 'key-number-two' }))
  expect(late).toEqual({ ok: true, value: { value: 3, revision: 3 } })
  expect(await scores()).toEqual([{ value: 3, revision: 3, key: 'key-number-three', source: 'phone' }])
})

test('after "Next" a change is refused, but a sending whose answer was lost is still acknowledged', async () => {
  await storeScore(panel.world, browser, score())
  expect(await lockServing(panel.world, browser, at('211'))).toMatchObject({ ok: false, reason: 'answers-missing' })
  await storeScore(panel.world, browser, score({ attribute: 1, key: 'key-number-two' }))
  expect(await lockServing(panel.world, browser, at('211'))).toEqual({ ok: true, value: { locked: true } })
  expect(await lockServing(panel.world, browser, at('211'))).toEqual({ ok: true, value: { locked: true } })

  expect(await storeScore(panel.world, browser, score())).toEqual({ ok: true, value: { value: 7, revision: 1 } })
  const change = score({ value: 1, revision: 2, key: 'key-number-nine' })
  expect(await storeScore(panel.world, browser, change)).toMatchObject({ ok: false, reason: 'locked' })
  expect((await scores()).map(({ value }) => value)).toEqual([7, 7])
})

test('after closing a score is kept as late once, told so, and never counted', async () => {
  await storeScore(panel.world, browser, score())
  await panel.db.panel.update({ where: { id: panel.panelId }, data: { stage: 'closed' } })

  const again = await storeScore(panel.world, browser, score())
  expect(again).toMatchObject({ ok: true })
  const late = score({ attribute: 1, value: 2, key: 'key-too-late-1' })
  expect(await storeScore(panel.world, browser, late)).toMatchObject({ ok: false, reason: 'kept-late' })
  expect(await storeScore(panel.world, browser, late)).toMatchObject({ ok: false, reason: 'kept-late' })
  expect(await scores()).toHaveLength(1)
  expect(await panel.db.lateScore.findMany({ select: { value: true, key: true } })).toEqual([
    { value: 2, key: 'key-too-late-1' },
  ])
  expect((await acts()).filter((act) => act === 'score-kept-late')).toHaveLength(1)
})

test('nothing else is taken after closing', async () => {
  await panel.db.panel.update({ where: { id: panel.panelId }, data: { stage: 'decided' } })
  const closed = { ok: false, reason: 'panel-closed' }
  expect(await markCodeSeen(panel.world, browser, at('211'))).toMatchObject(closed)
  expect(await lockServing(panel.world, browser, at('211'))).toMatchObject(closed)
  expect(await skipServing(panel.world, browser, { ...at('211'), reason: 'rather-not' })).toMatchObject(closed)
  const comment = { ...at('211'), comment: 'late', revision: 1 }
  expect(await storeComment(panel.world, browser, comment)).toMatchObject(closed)
})

test('a cup of another seat, and a question that is not asked, are refused', async () => {
  expect(await storeScore(panel.world, browser, score({ code: '221' }))).toMatchObject({ reason: 'not-your-cup' })
  expect(await storeScore(panel.world, browser, score({ attribute: 7 }))).toMatchObject({ reason: 'no-such-attribute' })
  expect(await scores()).toEqual([])
})

test('a browser without a seat, and one that nobody knows, store nothing', async () => {
  expect(await storeScore(panel.world, null, score())).toMatchObject({ reason: 'no-seat' })
  expect(await storeScore(panel.world, panel.world.token(), score())).toMatchObject({ reason: 'seat-moved' })
  expect(await storeScore(panel.world, browser, { ...score(), sitting: 'an-earlier-turn' })).toMatchObject({
    reason: 'another-sitting',
  })
  expect(await scores()).toEqual([])
})

test('the code on the cup is noted once, at the first time', async () => {
  await markCodeSeen(panel.world, browser, at('211'))
  const first = await panel.db.serving.findFirst({ where: { code: '211' }, select: { codeSeenAt: true } })
  panel.pass(60_000)
  await markCodeSeen(panel.world, browser, at('211'))
  expect(await panel.db.serving.findFirst({ where: { code: '211' }, select: { codeSeenAt: true } })).toEqual(first)
  expect((await acts()).filter((act) => act === 'code-seen')).toHaveLength(1)
})

test('a skipped cup is locked with its reason, once', async () => {
  const skip = () => skipServing(panel.world, browser, { ...at('212'), reason: 'spilt-or-missing' })
  expect(await skip()).toEqual({ ok: true, value: { skipped: true } })
  expect(await skip()).toEqual({ ok: true, value: { skipped: true } })
  const row = await panel.db.serving.findFirst({ where: { code: '212' } })
  expect(row?.skipReason).toBe('spilt-or-missing')
  expect(row?.lockedAt).toEqual(row?.skippedAt)
  expect(await storeScore(panel.world, browser, score({ code: '212' }))).toMatchObject({ reason: 'locked' })
  expect((await acts()).filter((act) => act === 'cup-skipped')).toHaveLength(1)
})

test('a finished cup cannot be skipped afterwards', async () => {
  await storeScore(panel.world, browser, score())
  await storeScore(panel.world, browser, score({ attribute: 1, key: 'key-number-two' }))
  await lockServing(panel.world, browser, at('211'))
  const skip = await skipServing(panel.world, browser, { ...at('211'), reason: 'rather-not' })
  expect(skip).toMatchObject({ ok: false, reason: 'locked' })
})

test('of two comments the newer stays, whichever arrives last', async () => {
  const say = (comment: string, revision: number) =>
    storeComment(panel.world, browser, { ...at('211'), comment, revision })
  await say('  newer ', 2)
  expect(await say('older', 1)).toEqual({ ok: true, value: { revision: 2 } })
  const row = await panel.db.serving.findFirst({ where: { code: '211' } })
  expect(row).toMatchObject({ comment: 'newer', commentRevision: 2 })
})
