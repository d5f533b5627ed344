/**
 * What changes of an ingredient without the house having decided it is told until somebody looked: which glasses, how much
 * each costs more, what is to be tasted again. Costs are worked by hand: 60 g of the beans are all of the third trial.
 */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { IngredientForm, type PriceSent } from '@/lib/forms/ingredient-form'
import { readHome } from '@/lib/tasks/house/read-home'
import { adoptWithoutPanel, archiveRecipe } from '@/lib/tasks/recipe/keep-recipe'
import { addPriceOf } from '@/lib/tasks/store/add-price'
import { correctIngredient } from '@/lib/tasks/store/keep-ingredient'
import { lookAtChanges } from '@/lib/tasks/store/look-at-changes'
import { readChanges, readLookedChanges } from '@/lib/tasks/recipe/read-changes'
import { strikePrice } from '@/lib/tasks/store/strike-price'
import { archiveTrial } from '@/lib/tasks/trial/note-on-trial'
import { cafeForTest, type TestCafe } from '@/test/support/cafe'

const HOUR = 3_600_000

let cafe: TestCafe
let coffee: string
beforeEach(async () => {
  cafe = await cafeForTest()
  coffee = (await cafe.db.ingredient.findFirstOrThrow({ where: { name: 'Zephyrine beans' } })).id
})
afterEach(() => cafe.close())

async function price(of: string, euros: number, grams = 10, since?: string) {
  const pack = { value: grams, typed: String(grams) }
  const sent: PriceSent = { price: euros, pack, packUnit: 'g', usable: undefined, since, note: undefined }
  expect(await addPriceOf(cafe.world, cafe.owner, of, sent)).toMatchObject({ ok: true })
  cafe.pass(HOUR)
}

async function correct(id: string, typed: Readonly<Record<string, unknown>>) {
  const { name, kind } = await cafe.db.ingredient.findUniqueOrThrow({ where: { id } })
  const sent = IngredientForm.parse({ name, kind, form: 'liquid', labelRead: 'on', ...typed })
  expect(await correctIngredient(cafe.world, cafe.owner, id, sent, null)).toMatchObject({ ok: true })
  cafe.pass(HOUR)
}

const changes = () => readChanges(cafe.world, cafe.owner)

async function glassOf(trialId: string | undefined) {
  const [one] = await changes()
  const glass = one?.glasses.find(({ trial }) => trial.id === trialId)
  const value = (figure: { known: boolean; value?: number } | undefined) =>
    figure?.known ? Number(figure.value?.toFixed(6)) : null
  return (
    glass && {
      cost: [value(glass.cost.before), value(glass.cost.now)],
      left: [value(glass.left.before), value(glass.left.now)],
    }
  )
}

test('a first price changes nothing that was known; a dearer one moves what each glass costs and leaves', async () => {
  await cafe.db.recipe.update({ where: { id: cafe.recipeId }, data: { priceMinor: 2000, taxBp: 0 } })
  await price(coffee, 2)
  expect(await changes()).toEqual([])
  await price(coffee, 3)
  const [one] = await changes()
  expect(one).toMatchObject({ name: 'Zephyrine beans', tasteAgain: false, unread: false, more: 0 })
  expect(one?.changes).toMatchObject([
    { by: 'Ottoline', said: { what: 'price', before: { price: 2 }, after: { price: 3 } } },
  ])
  // 60 g at 2.00, then 3.00, for 10 g; of 20.00 without tax 8.00, then 2.00 is left
  expect(await glassOf(cafe.trialIds[2])).toEqual({ cost: [12, 18], left: [8, 2] })
  // the milk beside it has no price: what the glass costs was not known and is not known
  expect(await glassOf(cafe.trialIds[0])).toEqual({ cost: [null, null], left: [null, null] })
})

test('a smaller pack at the old price is a change of the pack', async () => {
  await price(coffee, 2, 10)
  await price(coffee, 2, 8)
  expect((await changes())[0]?.changes.map(({ said }) => said.what)).toEqual(['pack'])
  // 60 g at 2.00 for 8 g
  expect(await glassOf(cafe.trialIds[2])).toEqual({ cost: [12, 15], left: [null, null] })
})

test('a price of an earlier day that does not count today is no change; a struck one is, and back again is as before', async () => {
  await price(coffee, 2)
  await price(coffee, 5, 10, '2026-03-01')
  expect(await changes()).toEqual([])
  await price(coffee, 200)
  const wrong = await cafe.db.ingredientPrice.findFirstOrThrow({ where: { priceMinor: 20_000 } })
  await strikePrice(cafe.world, cafe.owner, coffee, wrong.id)
  await strikePrice(cafe.world, cafe.owner, coffee, wrong.id)
  expect((await changes())[0]?.changes).toHaveLength(2)
  expect((await glassOf(cafe.trialIds[2]))?.cost).toEqual([12, 12])
})

test('with its only price struck out, what a glass costs is not known, and is told', async () => {
  await price(coffee, 2)
  const only = await cafe.db.ingredientPrice.findFirstOrThrow()
  await strikePrice(cafe.world, cafe.owner, coffee, only.id)
  expect((await glassOf(cafe.trialIds[2]))?.cost).toEqual([12, null])
})

test('another supplier and another composition are another drink; what was only not known is not', async () => {
  await correct(coffee, { supplier: 'North road', fat: '3.5' })
  expect(await changes()).toEqual([])
  await correct(coffee, { supplier: 'South road', fat: '3.5' })
  expect(await changes()).toMatchObject([
    { tasteAgain: true, changes: [{ said: { what: 'supplier', before: 'North road', after: 'South road' } }] },
  ])
  await lookAtChanges(cafe.world, cafe.owner, coffee, (await changes())[0]?.changes.map(({ id }) => id) ?? [])
  await correct(coffee, { supplier: 'South road', fat: '3.8', sugars: '1' })
  const [one] = await changes()
  expect(one).toMatchObject({
    tasteAgain: true,
    changes: [{ said: { what: 'label', composition: [{ name: 'fat', was: 3.5, is: 3.8 }], allergens: [] } }],
  })
})

test('a new allergen stands first, reaches glasses through batches, and is new only where it was not before', async () => {
  await price(coffee, 2)
  await price(coffee, 3)
  const sugar = (await cafe.db.ingredient.findFirstOrThrow({ where: { name: 'Quillberry sugar' } })).id
  await correct(sugar, { allergens: { sesame: 'may-contain' } })
  const [first, second] = await changes()
  expect([first?.name, second?.name]).toEqual(['Quillberry sugar', 'Zephyrine beans'])
  expect(first).toMatchObject({
    tasteAgain: false,
    changes: [{ said: { allergens: [{ allergen: 'sesame', was: 'not-named', is: 'may-contain' }] } }],
  })
  // on a line of the second trial, in a batch of the fourth
  expect(
    first?.glasses.map(({ trial, allergens }) => [trial.number, allergens.map(({ id, state }) => `${id} ${state}`)]),
  ).toEqual(
    expect.arrayContaining([
      [2, ['sesame may-contain']],
      [4, ['sesame may-contain']],
    ]),
  )
  expect(first?.glasses).toHaveLength(2)
})

test('a label read for the first time tells of its allergens where somebody was poured it already', async () => {
  await correct(cafe.unreadId, { labelRead: undefined, allergens: { milk: 'contains' } })
  expect(await changes()).toEqual([])
  const [, , , fourth = ''] = cafe.trialIds
  await adoptWithoutPanel(cafe.world, cafe.owner, cafe.recipeId, { trialId: fourth, reason: 'On the menu.' })
  await correct(cafe.unreadId, { labelRead: undefined, allergens: { milk: 'contains', 'tree-nuts': 'contains' } })
  expect(await changes()).toMatchObject([
    {
      unread: true,
      glasses: [{ standing: 'house', trial: { id: fourth }, allergens: [{ id: 'tree-nuts', state: 'contains' }] }],
    },
  ])
})

test('alcohol first stated is told where a glass of it was poured already; of a draft, and of none, it is not', async () => {
  await correct(coffee, { alcohol: '0' })
  await cafe.db.ingredient.update({ where: { id: coffee }, data: { alcoholBp: null } })
  await correct(coffee, { alcohol: '12' })
  expect(await changes()).toEqual([])
  await cafe.db.ingredient.update({ where: { id: coffee }, data: { alcoholBp: null } })
  const [first = ''] = cafe.trialIds
  await adoptWithoutPanel(cafe.world, cafe.owner, cafe.recipeId, { trialId: first, reason: 'On the menu.' })
  await correct(coffee, { alcohol: '0' })
  expect(await changes()).toEqual([])
  await cafe.db.ingredient.update({ where: { id: coffee }, data: { alcoholBp: null } })
  await correct(coffee, { alcohol: '12' })
  // the drink is what it was: nothing says that it tastes otherwise
  expect(await changes()).toMatchObject([
    {
      name: 'Zephyrine beans',
      tasteAgain: false,
      changes: [{ said: { what: 'label', alcohol: 12, composition: [] } }],
    },
  ])
  // on home too, and first of all
  expect((await readHome(cafe.world, cafe.owner, true)).changes).toMatchObject([
    { changes: [{ said: { alcohol: 12 } }] },
  ])
})

test('recipes and trials put aside are left out, and house recipes stand first', async () => {
  await price(coffee, 2)
  const [first = '', second = ''] = cafe.trialIds
  await adoptWithoutPanel(cafe.world, cafe.owner, cafe.recipeId, { trialId: first, reason: 'On the menu.' })
  await archiveTrial(cafe.world, cafe.owner, second, true)
  await price(coffee, 3)
  const shown = async () => (await changes())[0]?.glasses.map(({ trial, standing }) => `${trial.number} ${standing}`)
  expect(await shown()).toEqual(['1 house', expect.stringMatching(/draft$/), expect.stringMatching(/draft$/)])
  expect((await readHome(cafe.world, cafe.owner, true)).changes).toMatchObject([{ glasses: [{ standing: 'house' }] }])
  await archiveRecipe(cafe.world, cafe.owner, cafe.recipeId, true)
  expect(await shown()).toEqual([])
})

test('on home until somebody looked: what came meanwhile stays, the diary says who, and nobody of another café looks', async () => {
  await price(coffee, 2)
  await price(coffee, 3)
  const seen = (await changes())[0]?.changes.map(({ id }) => id) ?? []
  await price(coffee, 4)
  expect(await lookAtChanges(cafe.world, cafe.stranger, coffee, seen)).toMatchObject({ ok: false, reason: 'gone' })
  expect(await lookAtChanges(cafe.world, cafe.owner, coffee, seen)).toMatchObject({ ok: true, value: 1 })
  expect(await lookAtChanges(cafe.world, cafe.secondOwner, coffee, seen)).toMatchObject({ ok: true, value: 0 })
  // what was looked at is the new yardstick: 60 g at 3.00, then 4.00
  expect((await glassOf(cafe.trialIds[2]))?.cost).toEqual([18, 24])
  expect(await readLookedChanges(cafe.world, cafe.owner)).toMatchObject([
    { lookedBy: 'Ottoline', ingredient: { name: 'Zephyrine beans' } },
  ])
  const lines = await cafe.db.auditRow.findMany({ where: { act: 'changes-looked-at' } })
  expect(lines.map(({ actorId, subjectId }) => [actorId, subjectId])).toEqual([[cafe.owner.userId, coffee]])
  expect(await readChanges(cafe.world, cafe.stranger)).toEqual([])
  await lookAtChanges(cafe.world, cafe.owner, coffee, (await changes())[0]?.changes.map(({ id }) => id) ?? [])
  expect((await readHome(cafe.world, cafe.owner, true)).changes).toEqual([])
})

test('of a line that a cost level swaps, only a trial made at that level holds the other', async () => {
  const { db, owner, recipeId } = cafe
  const milk = (await db.ingredient.findFirstOrThrow({ where: { name: 'Zephyrine milk' } })).id
  const [first = ''] = cafe.trialIds
  const line = await db.trialLine.findFirstOrThrow({ where: { trialId: first, ingredientId: milk } })
  await db.costLevel.create({ data: { id: 'level', cafeId: owner.cafeId, recipeId, name: 'Economy', position: 1 } })
  await db.lineAlternative.create({
    data: { id: 'other', cafeId: owner.cafeId, lineId: line.id, costLevelId: 'level', ingredientId: cafe.unreadId },
  })
  await price(milk, 1)
  await price(milk, 2)
  const holding = async () => (await changes())[0]?.glasses.map(({ trial }) => trial.id)
  expect(await holding()).toEqual([first])
  await db.trial.update({ where: { id: first }, data: { costLevelId: 'level' } })
  expect(await holding()).toEqual([])
})
