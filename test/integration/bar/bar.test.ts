/** What stands open to whoever makes drinks: house recipes, their batches, labels, what goes today; and nothing else. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { readBar } from '@/lib/tasks/bar/read-bar'
import { readBarBatch } from '@/lib/tasks/bar/read-bar-batch'
import { readBarRecipe } from '@/lib/tasks/bar/read-bar-recipe'
import { readLabel } from '@/lib/tasks/bar/read-label'
import { throwAway } from '@/lib/tasks/bar/throw-away'
import { adoptWithoutPanel } from '@/lib/tasks/recipe/keep-recipe'
import { keepBarWeighing } from '@/lib/tasks/bar/keep-bar-weighing'
import { cafeForTest, type TestCafe } from '@/test/support/cafe'

const money = { currency: 'EUR', currencyDigits: 2, allergenList: 'eu' }
let cafe: TestCafe
let syrup: { id: string; preparationId: string }
beforeEach(async () => {
  cafe = await cafeForTest() // its clock stands at 2026-03-14 10:00 UTC
  await cafe.db.ingredient.updateMany({ data: { labelReadAt: cafe.world.now() } })
  const [inner = '', outer = ''] = cafe.batchIds
  await cafe.db.preparationBatch.update({ where: { id: inner }, data: { outputMg: 100_000, brixHundredths: 2000 } })
  const steps = JSON.stringify([{ text: 'Simmer', minutes: 12 }])
  syrup = await cafe.db.preparationBatch.update({
    where: { id: outer },
    data: { outputMg: 180_000, brixHundredths: 5000, steps, discardAt: new Date('2026-03-20T10:00:00Z') },
  })
  const sent = { trialId: cafe.trialIds[3] ?? '', reason: 'It is what we sell.' }
  expect(await adoptWithoutPanel(cafe.world, reader(), cafe.recipeId, sent)).toMatchObject({ ok: true })
})
afterEach(() => cafe.close())

const unscaled = { grams: null, asLast: false }
const reader = () => ({ ...cafe.owner, cafe: money })

async function another(
  number: number,
  data: { brixHundredths?: number; discardAt?: Date | null; preparationId?: string },
) {
  const { cafeId } = cafe.owner
  const { preparationId = syrup.preparationId } = data
  const row = { id: `batch-${number}`, cafeId, preparationId, number, outputMg: 90_000, brixHundredths: 5000 }
  await cafe.db.preparationBatch.create({ data: { createdAt: cafe.world.now(), ...row, ...data, preparationId } })
  return `batch-${number}`
}

test('house recipes by name, and the batch that must go first; what is past its date is never poured', async () => {
  await another(2, { discardAt: new Date('2026-03-17T10:00:00Z') })
  await another(3, { discardAt: new Date('2026-03-01T10:00:00Z') })
  await another(4, { discardAt: null })
  const bar = await readBar(cafe.world, cafe.owner, false)
  expect(bar.recipes).toMatchObject([{ recipe: { name: 'Cold kiosk coffee' }, version: 1 }])
  expect(bar.preparations.map(({ name, pour }) => [name, pour?.number])).toEqual([
    ['Ombrelle base', 1],
    ['Ombrelle syrup', 2],
  ])
  expect(bar.due).toMatchObject([{ number: 3, isPast: true }])
  const made = await readBarRecipe(cafe.world, reader(), cafe.recipeId)
  expect(made?.pours).toMatchObject([{ name: 'Ombrelle syrup', batch: { number: 2 }, otherwise: null }])
  await cafe.db.preparationBatch.updateMany({ data: { discardAt: new Date('2026-03-14T09:59:00Z') } })
  expect((await readBar(cafe.world, cafe.owner, false)).preparations.map(({ pour }) => pour)).toEqual([null, null])
})

test('a batch takes the earliest date of what went into it', async () => {
  const [inner = ''] = cafe.batchIds
  await cafe.db.preparationBatch.update({ where: { id: inner }, data: { discardAt: new Date('2026-03-14T20:00:00Z') } })
  const { due } = await readBar(cafe.world, cafe.owner, false)
  expect(due.map(({ name, isPast }) => [name, isPast])).toEqual([
    ['Ombrelle base', false],
    ['Ombrelle syrup', false],
  ])
  expect((await readLabel(cafe.world, reader(), syrup.id, false))?.discardAt).toEqual(new Date('2026-03-14T20:00:00Z'))
})

test('a syrup that reads more than a degree otherwise is said with the dose that holds the same sugar, untasted', async () => {
  await another(2, { brixHundredths: 6000, discardAt: new Date('2026-03-16T10:00:00Z') })
  const otherwise = async () => (await readBarRecipe(cafe.world, reader(), cafe.recipeId))?.pours[0]?.otherwise
  // 60 g · 50 / 60 = 50 g hold the same 30 g of sugar (by hand)
  expect(await otherwise()).toEqual({ settled: 50, reads: 60, dose: 60, grams: 50 })
  // it is what the card and the steps ask for, ± 2 % of it, and what is weighed is held against
  const steps = (await readBarRecipe(cafe.world, reader(), cafe.recipeId))?.card.scale.steps
  expect(steps?.[1]).toMatchObject({ add: 50, tolerance: 1, corrected: { batch: 2, sheetGrams: 60 } })
  const weigh = (key: string, grams: number) =>
    keepBarWeighing(cafe.world, reader(), cafe.recipeId, { key, glasses: 1, weights: [{ position: 2, grams }] })
  expect(await weigh('corrected', 50.9)).toMatchObject({ value: { within: true } })
  expect(await weigh('as the sheet', 60)).toMatchObject({ value: { within: false } })
  await cafe.db.preparationBatch.update({ where: { id: 'batch-2' }, data: { brixHundredths: 5100 } })
  expect(await otherwise()).toBeNull()
})

test('of another batch whose °Bx nobody knows no dose is shown, on the card, beside the scale, and in what is kept', async () => {
  const bottle = await another(2, { discardAt: new Date('2026-03-16T10:00:00Z') })
  await cafe.db.preparationBatch.update({ where: { id: bottle }, data: { brixHundredths: null } })
  const made = await readBarRecipe(cafe.world, reader(), cafe.recipeId)
  expect(made?.pours).toMatchObject([{ isUnread: true }])
  expect(made?.forToday.unread).toEqual({ 1: { batch: 2, sheetGrams: 60 } })
  expect(made?.card.scale.steps[1]).toMatchObject({ add: null, unread: { batch: 2, sheetGrams: 60 } })
  expect(made?.card.scale.finalGrams).toBeNull()
  const weights = [{ position: 2, grams: 60 }]
  const kept = await keepBarWeighing(cafe.world, reader(), cafe.recipeId, { key: 'k', glasses: 1, weights })
  expect(kept).toMatchObject({ value: { within: null } })
})

test('nothing that goes to the bar costs anything, or was once one batch', async () => {
  await cafe.db.recipe.update({ where: { id: cafe.recipeId }, data: { priceMinor: 450, fixedMinor: 9900 } })
  const made = await readBarRecipe(cafe.world, reader(), cafe.recipeId)
  const text = JSON.stringify(made?.build)
  expect(text).not.toMatch(/"(costPerGram|menuPrice|fixedCost|wasteFraction|packagingCost)":[^n]/)
  expect(made?.build.lines.map(({ name }) => name)).toEqual(['Zephyrine beans', 'Ombrelle syrup'])
  expect(made?.card.scale.steps.map(({ name }) => name)).toEqual(['Zephyrine beans', 'Ombrelle syrup'])
})

test('a batch is made again for any mass, as the last one was that was weighed out', async () => {
  await another(2, { discardAt: null })
  await cafe.db.preparationBatch.update({ where: { id: 'batch-2' }, data: { outputMg: null } })
  const batch = await readBarBatch(cafe.world, reader(), syrup.preparationId, { grams: 900, asLast: false }, false)
  // 200 g in gave 180 g: 900 g take 500 g of each of the two (by hand)
  expect(batch).toMatchObject({
    targetGrams: 900,
    from: { number: 1, outputGrams: 180, steps: [{ text: 'Simmer', minutes: 12 }] },
    inputs: [
      { name: 'Quillberry sugar', grams: 500 },
      { name: 'Ombrelle base', grams: 500 },
    ],
  })
})

test('what no house recipe is made of is closed to who only makes drinks, and open to who reads recipes', async () => {
  const { cafeId } = cafe.owner
  const row = { cafeId, kind: 'syrup', createdAt: cafe.world.now() }
  await cafe.db.preparation.create({ data: { id: 'trial-syrup', name: 'Tried syrup', ...row } })
  const id = await another(1, { preparationId: 'trial-syrup', discardAt: new Date('2026-03-01T10:00:00Z') })
  for (const reads of [false, true]) {
    const bar = await readBar(cafe.world, cafe.owner, reads)
    expect(bar.preparations.map(({ name }) => name)).not.toContain('Tried syrup')
    expect(bar.due.some(({ name }) => name === 'Tried syrup')).toBe(reads)
    expect((await readLabel(cafe.world, reader(), id, reads)) !== null).toBe(reads)
    expect((await readBarBatch(cafe.world, reader(), 'trial-syrup', unscaled, reads)) !== null).toBe(reads)
  }
  expect(await throwAway(cafe.world, cafe.owner, id, false)).toMatchObject({ ok: false, reason: 'gone' })
  expect(await throwAway(cafe.world, cafe.owner, id, true)).toMatchObject({ ok: true })
})

test('what is thrown away is put aside, once, with who did it in the diary, and its trials keep it', async () => {
  expect(await throwAway(cafe.world, cafe.owner, syrup.id, false)).toMatchObject({ ok: true })
  expect(await throwAway(cafe.world, cafe.owner, syrup.id, false)).toMatchObject({ ok: false })
  const rows = await cafe.db.auditRow.findMany({ where: { act: 'batch-thrown-away' } })
  expect(rows).toMatchObject([{ subjectId: syrup.id, actorId: cafe.owner.userId }])
  expect((await readBar(cafe.world, cafe.owner, false)).preparations.at(-1)?.pour).toBeNull()
  expect((await readBarRecipe(cafe.world, reader(), cafe.recipeId))?.card.scale.steps).toHaveLength(2)
})

test('a drink without a house recipe, or put aside, is not the bar’s', async () => {
  await cafe.db.recipe.update({ where: { id: cafe.recipeId }, data: { archivedAt: cafe.world.now() } })
  expect(await readBarRecipe(cafe.world, reader(), cafe.recipeId)).toBeNull()
  expect((await readBar(cafe.world, cafe.owner, true)).recipes).toEqual([])
  expect(await readBarRecipe(cafe.world, reader(), 'no-such-recipe')).toBeNull()
})

test('what the recipe’s cost level used is poured, not what its sheet names', async () => {
  const { cafeId } = cafe.owner
  const trialId = cafe.trialIds[3] ?? ''
  const [inner = ''] = cafe.batchIds
  const line = await cafe.db.trialLine.findFirstOrThrow({ where: { trialId, batchId: syrup.id } })
  const level = { cafeId, id: 'economy', recipeId: cafe.recipeId, name: 'economy', position: 1 }
  await cafe.db.costLevel.create({ data: level })
  const swap = { cafeId, id: 'swap', lineId: line.id, costLevelId: level.id }
  await cafe.db.lineAlternative.create({ data: { ...swap, batchId: inner } })
  const poured = async () => (await readBarRecipe(cafe.world, reader(), cafe.recipeId))?.pours.map(({ name }) => name)
  expect(await poured()).toEqual(['Ombrelle syrup'])
  await cafe.db.trial.update({ where: { id: trialId }, data: { costLevelId: level.id } })
  expect(await poured()).toEqual(['Ombrelle base'])
  const milk = await cafe.db.ingredient.findFirstOrThrow({ where: { cafeId, kind: 'milk' } })
  await cafe.db.lineAlternative.update({ where: { id: 'swap' }, data: { batchId: null, ingredientId: milk.id } })
  expect(await poured()).toEqual([])
})
