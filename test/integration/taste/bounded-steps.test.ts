/** What one phone can make the house write down: however often it sends, rows and lines of the diary are few. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { readSeatState } from '@/lib/tasks/taste/read-seat-state'
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

const send = (revision: number, more: { attribute?: number; value?: number; key?: string } = {}) => {
  panel.pass(1000)
  const { attribute = 0, value = 1 + (revision % 9), key = `a-key-of-revision-${attribute}-${revision}` } = more
  return storeScore(panel.world, browser, { sitting, code: '211', attribute, value, revision, key })
}
const lines = async (start: string) =>
  (await panel.db.auditRow.findMany({ where: { act: { startsWith: start } }, orderBy: { at: 'asc' } })).map(
    ({ act }) => act,
  )
const late = () =>
  panel.db.lateScore.findMany({ orderBy: { at: 'asc' }, select: { value: true, revision: true, key: true } })
const close = () => panel.db.panel.update({ where: { id: panel.panelId }, data: { stage: 'closed' } })

test('a score that is changed three hundred times is one line when the cup is first scored, and one when it is changed', async () => {
  for (let revision = 1; revision <= 300; revision++)
    expect(await send(revision)).toMatchObject({ ok: true, value: { revision } })
  for (let revision = 1; revision <= 20; revision++) await send(revision, { attribute: 1 })
  expect(await lines('score')).toEqual(['score-stored', 'score-changed'])
  expect(
    await panel.db.score.findMany({ select: { value: true, revision: true }, orderBy: { revision: 'desc' } }),
  ).toEqual([
    { value: 1 + (300 % 9), revision: 300 },
    { value: 1 + (20 % 9), revision: 20 },
  ])
})

test('it does not matter which revision comes first', async () => {
  for (const revision of [7, 8, 9]) await send(revision)
  expect(await lines('score')).toEqual(['score-stored', 'score-changed'])
})

test('a comment likewise', async () => {
  for (let revision = 1; revision <= 50; revision++)
    await storeComment(panel.world, browser, { sitting, code: '211', comment: `thought ${revision}`, revision })
  expect(await lines('comment')).toEqual(['comment-stored', 'comment-changed'])
})

test('of two hundred late scores the first and the last are kept, in two rows and one line, and each is told the same', async () => {
  await close()
  for (let revision = 1; revision <= 200; revision++)
    expect(await send(revision)).toMatchObject({ ok: false, reason: 'kept-late' })
  expect(await late()).toEqual([
    { value: 2, revision: 1, key: 'a-key-of-revision-0-1' },
    { value: 1 + (200 % 9), revision: 200, key: 'a-key-of-revision-0-200' },
  ])
  expect(await lines('score')).toEqual(['score-kept-late'])
  // The other question has its own first and last.
  await send(1, { attribute: 1 })
  expect(await late()).toHaveLength(3)
})

test('a late score sent again, or one older than what is kept, changes nothing and is told the same', async () => {
  await close()
  await send(1)
  await send(5)
  const kept = await late()
  for (const revision of [1, 5, 3]) expect(await send(revision)).toMatchObject({ reason: 'kept-late' })
  expect(await late()).toEqual(kept)
})

test('rows kept before there was a bound stay as they are; what comes now replaces the last of them', async () => {
  const first = await send(1)
  expect(first.ok).toBe(true)
  await close()
  const { cafeId, servingId, attributeId } = await panel.db.score.findFirstOrThrow()
  const at = panel.world.now()
  for (const revision of [2, 3, 4, 5]) {
    const row = { cafeId, servingId, attributeId, value: revision, revision, key: `older-${revision}` }
    await panel.db.lateScore.create({
      data: { ...row, id: `older-${revision}`, at: new Date(at.getTime() + revision) },
    })
  }
  await send(9)
  expect((await late()).map(({ revision }) => revision)).toEqual([2, 3, 4, 9])
})
