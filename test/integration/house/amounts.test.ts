/** Amounts are kept in whole milligrams of 32 bits: what would be kept as nothing, or not at all, is refused at its line. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { BatchForm } from '@/lib/forms/preparation-form'
import { TrialForm } from '@/lib/forms/trial-form'
import { importTrial } from '@/lib/tasks/trial/import-trial'
import { recordBatch } from '@/lib/tasks/store/keep-batch'
import { readBatch } from '@/lib/tasks/store/read-preparation'
import { readCard } from '@/lib/tasks/trial/read-card'
import { readRecipe } from '@/lib/tasks/recipe/read-recipe'
import { readTrial } from '@/lib/tasks/trial/read-trial'
import { recordTrial } from '@/lib/tasks/trial/record-trial'
import { cafeForTest, type TestCafe } from '@/test/support/cafe'

const money = { currency: 'EUR', currencyDigits: 2, allergenList: 'eu', timeZone: 'UTC' }

let cafe: TestCafe
let part: string
let preparationId: string
beforeEach(async () => {
  cafe = await cafeForTest()
  part = `ingredient:${(await cafe.db.ingredient.findFirstOrThrow({ where: { name: 'Zephyrine beans' } })).id}`
  preparationId = (await cafe.db.preparation.findFirstOrThrow({ where: { name: 'Ombrelle base' } })).id
})
afterEach(() => cafe.close())

const cook = () => ({ ...cafe.owner, cafe: money })
const good = () => ({ part, amount: '60', unit: 'g' })

test.each([
  ['0.4', 'mg', 'too-little'], // 0.4 of the milligram that is kept
  ['3000', 'kg', 'too-much'], // 3 000 000 000 mg; 2³¹ − 1 are 2 147 483 647
])('a line of %s %s is refused, in a sheet and in a batch', async (amount, unit, reason) => {
  const lines = [good(), { part, amount, unit }]
  const sheet = TrialForm.parse({ name: 'A sheet', method: 'plunger-pot', lines })
  expect(await recordTrial(cafe.world, cook(), cafe.recipeId, sheet)).toMatchObject({ reason, detail: { line: '1' } })
  const batch = BatchForm.parse({ inputs: lines })
  expect(await recordBatch(cafe.world, cook(), preparationId, batch)).toMatchObject({ reason, detail: { line: '1' } })
})

test('a brew that would have kept more water than a column holds is refused', async () => {
  await cafe.db.preparation.update({ where: { id: preparationId }, data: { kind: 'immersion-brew' } })
  await cafe.db.ingredient.updateMany({ where: { name: 'Zephyrine beans' }, data: { form: 'grounds' } })
  const water = `ingredient:${cafe.unreadId}`
  const batch = BatchForm.parse({
    inputs: [
      { part, amount: '1', unit: 'mg' },
      { part: water, amount: '1000', unit: 'kg' },
    ],
    output: '1000',
  })
  // (1 000 000 000 − 1 000 000) mg kept by 1 mg: 999 000 000 g/g, × 1000 is above 2³¹ − 1
  expect(await recordBatch(cafe.world, cook(), preparationId, batch)).toMatchObject({ reason: 'too-few-grounds' })
})

const file = (line: object, more: object = {}) =>
  JSON.stringify({
    kind: 'sipwright-trial',
    version: 1,
    name: 'From a file',
    allergenList: 'eu',
    lines: [{ name: 'Fig', kind: 'other', targetGrams: 10, ...line }],
    ...more,
  })

test.each([
  ['lines[0].targetGrams', file({ targetGrams: 3_000_000 })],
  ['lines[0].targetGrams', file({ targetGrams: 0.0004 })],
  ['lines[0].weighedGrams', file({ weighedGrams: 3_000_000 })],
  // 250 000 000 × 10 tenths of a kcal are above 2³¹ − 1
  ['lines[0].composition.energyKcal', file({ composition: { energyKcal: 250_000_000 } })],
])('a file with a number that cannot be kept is refused at %s, and nothing is written', async (path, content) => {
  expect(await importTrial(cafe.world, cafe.owner, cafe.recipeId, content)).toMatchObject({
    reason: 'impossible',
    detail: { path },
  })
  expect(await cafe.db.trial.count({ where: { name: 'From a file' } })).toBe(0)
  expect(await importTrial(cafe.world, cafe.owner, cafe.recipeId, file({}))).toMatchObject({ ok: true })
})

test('rows of nothing, as an earlier version let them in, stop no page', async () => {
  const { db, owner } = cafe
  const vessel = { id: 'vessel', cafeId: owner.cafeId, name: 'Nothing', brimUl: 0, fillUl: 0 }
  await db.vessel.create({ data: { ...vessel, createdAt: cafe.world.now() } })
  await db.ingredient.updateMany({ data: { microdensity: 0 } })
  await db.preparationBatch.updateMany({ data: { outputMg: 0, microdensity: 0, retentionMilli: 0 } })
  await db.batchInput.updateMany({ data: { amountMg: 0, microdensity: 0 } })
  await db.trial.updateMany({
    data: { vesselId: 'vessel', ratioKind: 'water-in', ratioMilli: 0, extractionBp: 0, strengthBp: 0, method: 'drip' },
  })
  await db.trialLine.updateMany({ data: { targetMg: 0, microdensity: 0, toleranceMg: 0, weighedMg: 0 } })
  for (const id of cafe.trialIds) {
    expect(await readTrial(cafe.world, cook(), id)).not.toBeNull()
    expect(await readCard(cafe.world, cook(), id)).not.toBeNull()
  }
  expect((await readRecipe(cafe.world, cook(), cafe.recipeId))?.trials).toHaveLength(4)
  for (const id of cafe.batchIds) expect(await readBatch(cafe.world, cook(), id)).not.toBeNull()
})
