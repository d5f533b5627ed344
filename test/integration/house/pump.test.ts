/** A press of the pump is what the house measured: of a bottle where nobody did, no amount is taken. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { BatchForm, PreparationForm } from '@/lib/forms/preparation-form'
import { IngredientForm } from '@/lib/forms/ingredient-form'
import { readTrialFile } from '@/lib/forms/trial-of-file'
import { TrialForm } from '@/lib/forms/trial-form'
import { correctIngredient, enterIngredient } from '@/lib/tasks/store/keep-ingredient'
import { recordBatch } from '@/lib/tasks/store/keep-batch'
import { startPreparation } from '@/lib/tasks/store/keep-preparation'
import { readMake } from '@/lib/tasks/trial/read-make'
import { readTrial } from '@/lib/tasks/trial/read-trial'
import { exportTrial } from '@/lib/tasks/trial/export-trial'
import { importTrial } from '@/lib/tasks/trial/import-trial'
import { recordTrial } from '@/lib/tasks/trial/record-trial'
import { cafeForTest, type TestCafe } from '@/test/support/cafe'

let cafe: TestCafe
beforeEach(async () => {
  cafe = await cafeForTest()
})
afterEach(() => cafe.close())

const money = { currency: 'EUR', currencyDigits: 2, allergenList: 'eu', timeZone: 'UTC' }
const actor = () => ({ ...cafe.owner, cafe: money })

const value = <Value>(made: { ok: true; value: Value } | { ok: false; reason: string }): Value => {
  if (!made.ok) throw new Error(made.reason)
  return made.value
}

const honey = { name: 'Acacia honey', kind: 'sweetener', form: 'liquid', density: '1.433' }
const sheetOf = (part: string) =>
  TrialForm.parse({ name: 'Pumped', method: 'no-coffee', lines: [{ part, amount: '2', unit: 'pump' }] })
const record = (part: string) => recordTrial(cafe.world, actor(), cafe.recipeId, sheetOf(part))

// The density of honey is that of the trade's table (USDA household weights). By hand: 2 · 7.5 ml · 1.433 = 21.495 g.
test('two presses are grams by pump and density, on the sheet, in the list of many, in the file and in a house without that pump', async () => {
  const id = value(await enterIngredient(cafe.world, actor(), IngredientForm.parse(honey)))
  const part = `ingredient:${id}`
  expect(await record(part)).toMatchObject({ reason: 'pump-missing', detail: { line: '0', name: 'Acacia honey' } })
  const measured = IngredientForm.parse({ ...honey, pump: '7,5', spoon: '7' })
  value(await correctIngredient(cafe.world, actor(), id, measured, null))
  expect(await cafe.db.ingredient.findUnique({ where: { id } })).toMatchObject({ pumpUl: 7500, spoonMg: 7000 })

  const trialId = value(await record(part))
  const [row] = await cafe.db.trialLine.findMany({ where: { trialId } })
  expect(row).toMatchObject({ targetMg: 21_495, typed: '2', unit: 'pump', microdensity: 1_433_000 })
  const read = await readTrial(cafe.world, actor(), trialId)
  expect(read?.figures.problems).toEqual([])
  const many = await readMake(cafe.world, actor(), trialId, { count: 'glasses', amount: 10, spare: 0 })
  expect(many?.make?.known && many.make.lines[0]).toMatchObject({ grams: expect.closeTo(214.95, 9), presses: 20 })

  const file = await exportTrial(cafe.world, actor(), trialId)
  const text = file?.content ?? ''
  expect(readTrialFile(text)).toMatchObject({
    value: { lines: [{ targetGrams: 21.495, typed: { amount: 2, unit: 'pump', density: 1.433 } }] },
  })
  const imported = value(await importTrial(cafe.world, actor(), cafe.recipeId, text))
  const [line] = await cafe.db.trialLine.findMany({ where: { trialId: imported } })
  expect(line).toMatchObject({ targetMg: 21_495, typed: '15', unit: 'ml', microdensity: 1_433_000 })

  // what the pump gives later changes nothing that was weighed before
  value(await correctIngredient(cafe.world, actor(), id, IngredientForm.parse({ ...honey, pump: '10' }), null))
  expect(await cafe.db.trialLine.findMany({ where: { trialId } })).toMatchObject([{ targetMg: 21_495 }])
})

test('without a density a pump gives no grams, and a slip is said at its field', async () => {
  const id = value(
    await enterIngredient(cafe.world, actor(), IngredientForm.parse({ ...honey, density: undefined, pump: '8' })),
  )
  expect(await record(`ingredient:${id}`)).toMatchObject({ reason: 'density-missing', detail: { line: '0' } })
  for (const [field, slip] of [
    ['pump', '75'],
    ['pump', '0'],
    ['spoon', '21'],
    ['spoon', 'a heap'],
  ] as const)
    expect(IngredientForm.safeParse({ ...honey, [field]: slip }).error?.issues).toMatchObject([{ path: [field] }])
})

test('a house syrup is dosed by its bottle’s pump through the weight of its own batch, and goes so into another batch', async () => {
  const kept = PreparationForm.parse({ name: 'Date syrup', kind: 'other', pump: '8' })
  const preparationId = value(await startPreparation(cafe.world, actor(), kept))
  const sugar = value(await enterIngredient(cafe.world, actor(), IngredientForm.parse(honey)))
  const inputs = [{ part: `ingredient:${sugar}`, amount: '500' }]
  const made = BatchForm.parse({ inputs, output: '500', density: '1.25' })
  const batchId = value(await recordBatch(cafe.world, actor(), preparationId, made))
  const trialId = value(await record(`batch:${batchId}`))
  // by hand: 2 · 8 ml · 1.25 = 20 g; three presses are 30 g
  expect(await cafe.db.trialLine.findMany({ where: { trialId } })).toMatchObject([{ targetMg: 20_000 }])
  const again = BatchForm.parse({ inputs: [{ part: `batch:${batchId}`, amount: '3', unit: 'pump' }] })
  const outer = value(
    await startPreparation(cafe.world, actor(), PreparationForm.parse({ name: 'Mix', kind: 'other' })),
  )
  const mixId = value(await recordBatch(cafe.world, actor(), outer, again))
  expect(await cafe.db.batchInput.findMany({ where: { batchId: mixId } })).toMatchObject([{ amountMg: 30_000 }])
  const bad = BatchForm.parse({ inputs: [{ part: `ingredient:${sugar}`, amount: '3', unit: 'pump' }] })
  expect(await recordBatch(cafe.world, actor(), outer, bad)).toMatchObject({ reason: 'pump-missing' })
})
