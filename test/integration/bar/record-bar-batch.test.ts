/** A batch is written down by who stands behind the bar: of what is theirs alone, weighed out, and without a price. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { defaultsFromInputs } from '@/app/(house)/store/preparations/[preparationId]/batches/[batchId]/edit/batch-defaults'
import { BatchForm } from '@/lib/forms/preparation-form'
import { readBar } from '@/lib/tasks/bar/read-bar'
import { readBatchRecord } from '@/lib/tasks/bar/read-batch-record'
import { recordBarBatch } from '@/lib/tasks/bar/record-bar-batch'
import { adoptWithoutPanel } from '@/lib/tasks/recipe/keep-recipe'
import { cafeForTest, type TestCafe } from '@/test/support/cafe'

let cafe: TestCafe
let syrup: { id: string; preparationId: string }
let sugar: string
beforeEach(async () => {
  cafe = await cafeForTest() // its clock stands at 2026-03-14 10:00 UTC
  const { db, world } = cafe
  await db.ingredient.updateMany({ data: { labelReadAt: world.now() } })
  const [inner = '', outer = ''] = cafe.batchIds
  await db.preparationBatch.update({ where: { id: inner }, data: { outputMg: 100_000 } })
  syrup = await db.preparationBatch.update({ where: { id: outer }, data: { outputMg: 180_000 } })
  sugar = (await db.ingredient.findFirstOrThrow({ where: { name: 'Quillberry sugar' } })).id
  const sent = { trialId: cafe.trialIds[3] ?? '', reason: 'It is what we sell.' }
  expect(await adoptWithoutPanel(world, cafe.owner, cafe.recipeId, sent)).toMatchObject({ ok: true })
})
afterEach(() => cafe.close())

const cook = () => ({ ...cafe.pourer, cafe: { ...cafe.pourer.cafe, timeZone: 'UTC' } })
const sent = (inputs: readonly string[], more: object = { output: '180' }) =>
  BatchForm.parse({
    inputs: inputs.map((part) => ({ part, amount: '100', unit: 'g' })),
    madeAt: '2026-03-14T09:30',
    ...more,
  })
const record = (parts: readonly string[], more?: object, reads = false, of = syrup.preparationId) =>
  recordBarBatch(cafe.world, cook(), of, sent(parts, more), reads)

test('the batch stands on the shelf with who made it, and is poured', async () => {
  const made = await record([`ingredient:${sugar}`, `batch:${cafe.batchIds[0]}`])
  expect(made).toMatchObject({ ok: true })
  const id = made.ok ? made.value : ''
  const row = await cafe.db.preparationBatch.findUniqueOrThrow({ where: { id }, include: { inputs: true } })
  expect(row).toMatchObject({ number: 2, outputMg: 180_000, madeById: cafe.pourer.userId })
  expect(row.inputs).toHaveLength(2)
  expect(await cafe.db.auditRow.count({ where: { act: 'batch-recorded', subjectId: id } })).toBe(1)
  await cafe.db.preparationBatch.update({ where: { id: syrup.id }, data: { archivedAt: cafe.world.now() } })
  const { preparations } = await readBar(cafe.world, cafe.pourer, false)
  expect(preparations.find(({ id: one }) => one === syrup.preparationId)?.pour?.number).toBe(2)
})

test('what came out is weighed, since nobody at the bar can add it later', async () => {
  expect(await record([`ingredient:${sugar}`], {})).toMatchObject({ ok: false, reason: 'not-weighed' })
})

test('what no house recipe is made of is neither recorded nor put in; who reads recipes may', async () => {
  const milk = await cafe.db.ingredient.findFirstOrThrow({ where: { name: 'Zephyrine milk' } })
  const { cafeId } = cafe.owner
  const createdAt = cafe.world.now()
  await cafe.db.preparation.create({ data: { id: 'tried', cafeId, name: 'Tried syrup', kind: 'syrup', createdAt } })
  const strange = [`ingredient:${sugar}`, `ingredient:${milk.id}`]
  expect(await record(strange)).toMatchObject({ ok: false, reason: 'part-gone', detail: { line: '1' } })
  expect(await record([`ingredient:${sugar}`], undefined, false, 'tried')).toMatchObject({ reason: 'gone' })
  expect(await readBatchRecord(cafe.world, cafe.pourer, 'tried', false, false)).toBeNull()
  expect(await cafe.db.preparationBatch.count()).toBe(2)
  expect(await record(strange, undefined, true)).toMatchObject({ ok: true })
  expect(await record([`ingredient:${sugar}`], { output: '90' }, true, 'tried')).toMatchObject({ ok: true })
})

test('what is past its date is not on offer, and nothing on offer costs anything', async () => {
  const asked = () => readBatchRecord(cafe.world, cafe.pourer, syrup.preparationId, false, false)
  const price = { id: 'p', cafeId: cafe.owner.cafeId, ingredientId: sugar, priceMinor: 250, packMg: 1_000_000 }
  const from = { packTyped: '1', packUnit: 'kg', since: '2026-03-01T00:00:00Z', createdAt: cafe.world.now() }
  await cafe.db.ingredientPrice.create({ data: { ...price, ...from } })
  const before = await asked()
  expect(before).toMatchObject({ number: 2, from: { by: 'batch', number: 1 }, givesGrams: 180 })
  if (!before) throw new Error('it is the bar’s')
  // by hand: 180 g take 100 g of each, so 500 g take 277.777… g, and a field holds what a scale can show
  const { inputs } = defaultsFromInputs(before, 500, '2026-03-14T10:00')
  expect(inputs.map(({ amount }) => amount)).toEqual(['277.78', '277.78'])
  expect(before.inputs.map(({ part }) => part)).toEqual([`ingredient:${sugar}`, `batch:${cafe.batchIds[0]}`])
  expect(JSON.stringify(before.parts)).not.toMatch(/"costPerGram":[^n]/)
  const past = { discardAt: new Date('2026-03-13T10:00:00Z') }
  await cafe.db.preparationBatch.update({ where: { id: cafe.batchIds[0] ?? '' }, data: past })
  const after = await asked()
  expect(after?.inputs.map(({ part }) => part)).toEqual([`ingredient:${sugar}`, null])
  expect(after?.parts.some(({ ref }) => ref === `batch:${cafe.batchIds[0]}`)).toBe(false)
})

test('what a formula names is the bar’s, though no batch was made by it yet', async () => {
  const milk = await cafe.db.ingredient.findFirstOrThrow({ where: { name: 'Zephyrine milk' } })
  const { cafeId } = cafe.owner
  const own = { id: 'f', cafeId, preparationId: syrup.preparationId, version: 1, createdAt: cafe.world.now() }
  const input = { id: 'fi', cafeId, position: 1, amountMg: 100_000, typed: '100', unit: 'g', ingredientId: milk.id }
  await cafe.db.preparationFormula.create({ data: { ...own, inputs: { create: [input] } } })
  const begun = await readBatchRecord(cafe.world, cafe.pourer, syrup.preparationId, false, false)
  expect(begun).toMatchObject({ from: { by: 'formula', number: 1 }, formulaId: 'f' })
  expect(begun?.parts.map(({ name }) => name)).toContain('Zephyrine milk')
  expect(await record([`ingredient:${milk.id}`], { output: '90', formulaId: 'f' })).toMatchObject({ ok: true })
})
