/** What cannot be worked out cannot be frozen, and it is said before anybody clicks. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { freezeTrial } from '@/lib/tasks/trial/freeze-trial'
import { adoptWithoutPanel } from '@/lib/tasks/recipe/keep-recipe'
import { openPanel } from '@/lib/tasks/pour/open-panel'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { readAdoptable } from '@/lib/tasks/recipe/read-adoptable'
import { readPanel } from '@/lib/tasks/plan/read-panel'
import { cafeForTest, type TestCafe } from '../../support/cafe'

const money = { currency: 'EUR', currencyDigits: 2, allergenList: 'eu' }

let cafe: TestCafe
let odd: string
let panelId: string
beforeEach(async () => {
  cafe = await cafeForTest()
  odd = cafe.trialIds[1] ?? ''
  // No coffee gives nothing of itself to the water: the form lets it through, the arithmetic cannot.
  await cafe.db.trial.update({ where: { id: odd }, data: { method: 'plunger-pot', extractionBp: 0 } })
  const planned = await planPanel(cafe.world, cafe.owner, cafe.recipeId, cafe.plan())
  if (!planned.ok) throw new Error(planned.reason)
  panelId = planned.value
})
afterEach(() => cafe.close())

const mend = () => cafe.db.trial.update({ where: { id: odd }, data: { extractionBp: 2_000 } })
const frozen = () => cafe.db.trial.count({ where: { frozenAt: { not: null } } })
const message = 'Extraction must lie between 0 and 100 %.'

test('a panel with such a trial does not open, names the trial and what to mend, and freezes nothing', async () => {
  expect(await openPanel(cafe.world, cafe.owner, panelId)).toEqual({
    ok: false,
    reason: 'cannot-be-worked-out',
    detail: { name: 'Velvetine 2', message, trialId: odd },
  })
  expect(await frozen()).toBe(0)
  await mend()
  expect(await openPanel(cafe.world, cafe.owner, panelId)).toMatchObject({ ok: true })
  expect(await frozen()).toBe(3)
})

test('the page of the draft says so at its cup', async () => {
  const said = async () => (await readPanel(cafe.world, cafe.owner, panelId))?.cups.map((cup) => cup.toMend)
  expect(await said()).toEqual([null, message, null])
  await mend()
  expect(await said()).toEqual([null, null, null])
})

test('it is not adopted without a panel either, and the form does not offer it', async () => {
  const offered = async () => (await readAdoptable(cafe.world, { ...cafe.owner, cafe: money }, cafe.recipeId))?.trials
  expect((await offered())?.find((trial) => trial.id === odd)).toMatchObject({ name: 'Velvetine 2', toMend: message })
  expect((await offered())?.filter((trial) => trial.toMend === null)).toHaveLength(3)
  const adopt = () => adoptWithoutPanel(cafe.world, cafe.owner, cafe.recipeId, { trialId: odd, reason: 'On the menu.' })
  expect(await adopt()).toEqual({
    ok: false,
    reason: 'cannot-be-worked-out',
    detail: { name: 'Velvetine 2', message, trialId: odd },
  })
  expect(await frozen()).toBe(0)
  expect(await cafe.db.decision.count()).toBe(0)
  await mend()
  expect(await adopt()).toMatchObject({ ok: true })
  expect((await offered())?.find((trial) => trial.id === odd)).toMatchObject({ toMend: null })
})

test('whoever freezes without asking is stopped, and what was begun is undone', async () => {
  const act = cafe.db.$transaction((tx) => freezeTrial(tx, cafe.world, odd))
  await expect(act).rejects.toThrow(/cannot be worked out/)
  expect(await frozen()).toBe(0)
})

test('a trial that an earlier version froze so is poured and adopted as before: its sheet is kept', async () => {
  await mend()
  await cafe.db.$transaction((tx) => freezeTrial(tx, cafe.world, odd))
  await cafe.db.trial.update({ where: { id: odd }, data: { extractionBp: 0 } })
  expect((await readPanel(cafe.world, cafe.owner, panelId))?.cups.map((cup) => cup.toMend)).toEqual([null, null, null])
  expect(await openPanel(cafe.world, cafe.owner, panelId)).toMatchObject({ ok: true })
})

test('a doubt stops nobody: measured values may disagree, and the person knows better', async () => {
  await mend()
  const [batchId = ''] = cafe.batchIds
  await cafe.db.preparationBatch.update({ where: { id: batchId }, data: { outputMg: 90_000, brixHundredths: 9_000 } })
  const trialId = cafe.trialIds[3] ?? ''
  expect(
    await adoptWithoutPanel(cafe.world, cafe.owner, cafe.recipeId, { trialId, reason: 'On the menu.' }),
  ).toMatchObject({ ok: true })
})
