import { afterEach, beforeEach, expect, test } from 'vitest'
import { closePanel } from '@/lib/tasks/pour/close-panel'
import { openPanel } from '@/lib/tasks/pour/open-panel'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { decide } from '@/lib/tasks/result/decide'
import { readResult } from '@/lib/tasks/result/read-result'
import { readShared } from '@/lib/tasks/result/read-shared'
import { endSharing, listShared, shareResult } from '@/lib/tasks/result/share-result'
import { cafeForTest, type TestCafe } from '../../support/cafe'
import { scoreAsInR } from '../../support/panel-of-eight'

let cafe: TestCafe
let panelId: string
beforeEach(async () => {
  cafe = await cafeForTest()
  const planned = await planPanel(cafe.world, cafe.owner, cafe.recipeId, cafe.plan({ seatCount: 9, aspects: [] }))
  if (!planned.ok) throw new Error(planned.reason)
  panelId = planned.value
  await openPanel(cafe.world, cafe.owner, panelId)
  await scoreAsInR(cafe, panelId)
})
afterEach(() => cafe.close())

async function shared(): Promise<string> {
  const made = await shareResult(cafe.world, cafe.owner, panelId)
  if (!made.ok) throw new Error(made.reason)
  return made.value
}

test('an open panel is shared with nobody, whoever asks', async () => {
  const { world, owner, stranger } = cafe
  expect(await shareResult(world, owner, panelId)).toMatchObject({ reason: 'not-closed' })
  await closePanel(world, owner, panelId)
  expect(await shareResult(world, stranger, panelId)).toMatchObject({ reason: 'not-closed' })
  expect(await cafe.db.readLink.count()).toBe(0)
})

test('a link shows what the result says, and nobody’s name, seat or words', async () => {
  const { world, owner, trialIds } = cafe
  await closePanel(world, owner, panelId)
  await decide(world, owner, panelId, { kind: 'adopt', trialId: trialIds[1], reason: 'Liked better.' })
  const token = await shared()
  const read = await readShared(world, token)
  const result = await readResult(world, owner, panelId)
  expect(read?.result.verdict).toEqual(result?.verdict)
  expect(read?.result.claims).toEqual(result?.claims)
  expect(read?.cafe.name).toBe('Kiosk for tests')
  const said = JSON.stringify(read)
  // both are there to be kept back
  expect(result?.comments.map(({ text }) => text)).toEqual(['=SUM(1)'])
  expect([...(result?.deciders.values() ?? [])]).toEqual(['Ottoline'])
  for (const word of [/\bT[1-8]\b/, /Ottoline/, /=SUM/, /"seat"/, /Liked better/]) expect(said).not.toMatch(word)
})

test('a link is withdrawn by its own café, once, and opens nothing from then on; another stays open', async () => {
  const { world, owner, stranger, db } = cafe
  await closePanel(world, owner, panelId)
  const token = await shared()
  cafe.pass(1000)
  const other = await shared()
  expect(JSON.stringify(await db.readLink.findMany())).not.toContain(token)
  const [first] = await listShared(world, owner, panelId)
  await endSharing(world, stranger, panelId, first?.id ?? '')
  expect(await readShared(world, token)).not.toBeNull()
  await endSharing(world, owner, panelId, first?.id ?? '')
  await endSharing(world, owner, panelId, first?.id ?? '')
  expect([await readShared(world, token), await readShared(world, 'never was')]).toEqual([null, null])
  expect(await readShared(world, other)).not.toBeNull()
  expect((await listShared(world, owner, panelId)).map(({ by }) => by)).toEqual(['Ottoline'])
  expect(await db.auditRow.count({ where: { act: 'sharing-ended' } })).toBe(1)
})
