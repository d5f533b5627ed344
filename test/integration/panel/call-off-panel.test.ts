import { afterEach, beforeEach, expect, test } from 'vitest'
import { callOffPanel } from '@/lib/tasks/plan/call-off-panel'
import { closePanel } from '@/lib/tasks/pour/close-panel'
import { copyPanel } from '@/lib/tasks/plan/copy-panel'
import { discardDraft } from '@/lib/tasks/plan/discard-draft'
import { openPanel } from '@/lib/tasks/pour/open-panel'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { readHome } from '@/lib/tasks/house/read-home'
import { readPanel } from '@/lib/tasks/plan/read-panel'
import { readPanels } from '@/lib/tasks/plan/read-panels'
import { readResult } from '@/lib/tasks/result/read-result'
import { cafeForTest, type TestCafe } from '../../support/cafe'

let cafe: TestCafe
let panelId: string
beforeEach(async () => {
  cafe = await cafeForTest()
  const planned = await planPanel(cafe.world, cafe.owner, cafe.recipeId, cafe.plan())
  if (!planned.ok) throw new Error(planned.reason)
  panelId = planned.value
  await openPanel(cafe.world, cafe.owner, panelId)
})
afterEach(() => cafe.close())

const stage = async () => (await cafe.db.panel.findUniqueOrThrow({ where: { id: panelId } })).stage

test('an open panel that nobody tasted is called off, by name and day, and waits for nobody', async () => {
  cafe.pass(60_000)
  expect(await callOffPanel(cafe.world, cafe.owner, panelId)).toEqual({ ok: true, value: null })
  expect(await cafe.db.panel.findUniqueOrThrow({ where: { id: panelId } })).toMatchObject({
    stage: 'called-off',
    calledOffAt: new Date('2026-03-14T10:01:00Z'),
    calledOffById: cafe.owner.userId,
    closedAt: null,
  })
  const diary = await cafe.db.auditRow.findMany({ where: { subjectId: panelId }, orderBy: { at: 'asc' } })
  expect(diary.map(({ act, actorId }) => [act, actorId])).toContainEqual(['panel-called-off', cafe.owner.userId])

  const home = await readHome(cafe.world, cafe.owner, true)
  expect([home.open, home.undecided, home.drafts, home.decided]).toEqual([[], [], [], []])
  expect(await readPanel(cafe.world, cafe.owner, panelId)).toMatchObject({
    stage: 'called-off',
    calledOffBy: 'Ottoline',
    calledOffAt: new Date('2026-03-14T10:01:00Z'),
  })
  expect((await readPanels(cafe.world, cafe.owner, false)).map((panel) => panel.stage)).toEqual(['called-off'])
  expect(await readResult(cafe.world, cafe.owner, panelId)).toBeNull()
})

test('its trials stay frozen, and it stays for good', async () => {
  await callOffPanel(cafe.world, cafe.owner, panelId)
  expect(await cafe.db.trial.count({ where: { frozenAt: { not: null } } })).toBe(3)
  expect(await discardDraft(cafe.world, cafe.owner, panelId)).toMatchObject({ ok: false })
  expect(await closePanel(cafe.world, cafe.owner, panelId)).toMatchObject({ ok: false, reason: 'not-open' })
  expect(await openPanel(cafe.world, cafe.owner, panelId)).toMatchObject({ ok: false, reason: 'not-a-draft' })
  expect(await stage()).toBe('called-off')
})

test('its plan can be used again', async () => {
  await callOffPanel(cafe.world, cafe.owner, panelId)
  const copied = await copyPanel(cafe.world, cafe.owner, panelId)
  const draft = await readPanel(cafe.world, cafe.owner, copied.ok ? copied.value : '')
  expect(draft).toMatchObject({ stage: 'draft', copiedFromId: panelId })
})

test('who sat down and scored nothing keeps no panel open', async () => {
  await cafe.db.seat.updateMany({ where: { panelId, number: 1 }, data: { takenAt: new Date(0) } })
  expect(await callOffPanel(cafe.world, cafe.owner, panelId)).toMatchObject({ ok: true })
})

test('one score, on a phone or from paper, a skip or a word about a cup: somebody tasted', async () => {
  const { cafeId } = cafe.owner
  const [serving] = await cafe.db.serving.findMany({ where: { panelId } })
  const [attribute] = await cafe.db.panelAttribute.findMany({ where: { panelId } })
  const servingId = serving?.id ?? ''
  const score = { id: 's', cafeId, servingId, attributeId: attribute?.id ?? '', value: 7, revision: 1, key: 'k' }
  const refused = async () => {
    expect(await callOffPanel(cafe.world, cafe.owner, panelId)).toEqual({ ok: false, reason: 'tasted' })
    expect(await stage()).toBe('open')
    expect(await cafe.db.auditRow.count({ where: { act: 'panel-called-off' } })).toBe(0)
  }
  for (const source of ['phone', 'paper']) {
    await cafe.db.score.create({ data: { ...score, source, at: new Date(0) } })
    await refused()
    await cafe.db.score.deleteMany()
  }
  for (const said of [{ skippedAt: new Date(0) }, { comment: 'Thin.' }]) {
    await cafe.db.serving.update({ where: { id: servingId }, data: said })
    await refused()
    await cafe.db.serving.update({ where: { id: servingId }, data: { skippedAt: null, comment: null } })
  }
  expect(await callOffPanel(cafe.world, cafe.owner, panelId)).toMatchObject({ ok: true })
})

test('a stranger calls nothing off, and a panel that is over is over', async () => {
  expect(await callOffPanel(cafe.world, cafe.stranger, panelId)).toEqual({ ok: false, reason: 'not-open' })
  expect(await stage()).toBe('open')
  await closePanel(cafe.world, cafe.owner, panelId)
  expect(await callOffPanel(cafe.world, cafe.owner, panelId)).toEqual({ ok: false, reason: 'not-open' })
  expect(await stage()).toBe('closed')
})
