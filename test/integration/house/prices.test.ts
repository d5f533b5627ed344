/** What a pack costs holds from a day of the café's calendar; costs are worked by hand beside each check. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import type { PriceSent } from '@/lib/forms/ingredient-form'
import { addPriceOf } from '@/lib/tasks/store/add-price'
import { adoptWithoutPanel } from '@/lib/tasks/recipe/keep-recipe'
import { readHome } from '@/lib/tasks/house/read-home'
import { readIngredient } from '@/lib/tasks/store/read-ingredient'
import { readRecipe } from '@/lib/tasks/recipe/read-recipe'
import { readShelves } from '@/lib/tasks/store/read-shelves'
import { readTrial } from '@/lib/tasks/trial/read-trial'
import { strikePrice } from '@/lib/tasks/store/strike-price'
import { cafeForTest, type TestCafe } from '@/test/support/cafe'

const money = { currency: 'EUR', currencyDigits: 2, allergenList: 'eu', timeZone: 'UTC' }
const HOUR = 3_600_000

let cafe: TestCafe
let coffee: string
beforeEach(async () => {
  cafe = await cafeForTest() // its clock stands at 2026-03-14 10:00 UTC
  coffee = (await cafe.db.ingredient.findFirstOrThrow({ where: { name: 'Zephyrine beans' } })).id
})
afterEach(() => cafe.close())

const keeper = () => ({ ...cafe.owner, cafe: money })
const gram = (price: number, more: Partial<PriceSent> = {}): PriceSent => ({
  price,
  pack: { value: 10, typed: '10' },
  packUnit: 'g',
  usable: undefined,
  since: undefined,
  note: undefined,
  ...more,
})
const add = (price: number, since?: string) => addPriceOf(cafe.world, keeper(), coffee, gram(price, { since }))

/** What the third trial costs: 60 g of that coffee and nothing else. */
async function glass(): Promise<number | string> {
  const sheet = await readTrial(cafe.world, keeper(), cafe.trialIds[2] ?? '')
  const figure = sheet?.figures.cost.perGlass
  return figure?.known ? Number(figure.value.toFixed(6)) : (figure?.missing.join() ?? 'gone')
}

/** A price row as an earlier version, or a slip in the database, may have left it. */
async function row(id: string, more: { day: string; priceMinor: number; packMg?: number }) {
  await cafe.db.ingredientPrice.create({
    data: {
      id,
      cafeId: cafe.owner.cafeId,
      ingredientId: coffee,
      packMg: 10_000,
      packTyped: '10',
      packUnit: 'g',
      since: new Date(`${more.day}T00:00:00Z`),
      createdAt: cafe.world.now(),
      ...more,
    },
  })
}

test('a price of the future costs nothing before its day, and counts from its day on', async () => {
  await add(2)
  await row('dearer', { day: '2026-03-16', priceMinor: 900 })
  // 60 g at 2.00 for 10 g
  expect(await glass()).toBe(12)
  cafe.pass(48 * HOUR)
  // 60 g at 9.00 for 10 g
  expect(await glass()).toBe(54)
})

test('the later entry of one day counts, whether its day was typed or left empty', async () => {
  await add(2)
  cafe.pass(HOUR)
  expect(await add(1, '2026-03-14')).toMatchObject({ ok: true })
  expect(await glass()).toBe(6)
  cafe.pass(HOUR)
  await add(3)
  expect(await glass()).toBe(18)
})

test('the day is the café’s, not the server’s', async () => {
  await cafe.db.cafe.update({ where: { id: cafe.owner.cafeId }, data: { timeZone: 'Pacific/Auckland' } })
  cafe.pass(4 * HOUR)
  // 14:00 UTC on 14 March is 03:00 on 15 March in Auckland (UTC+13 in March)
  expect(await addPriceOf(cafe.world, { ...cafe.owner, cafe: money }, coffee, gram(2))).toMatchObject({ ok: true })
  expect(await cafe.db.ingredientPrice.findFirst()).toMatchObject({
    day: '2026-03-15',
    since: new Date('2026-03-15T00:00:00Z'),
  })
  expect(await glass()).toBe(12)
})

test('a day that has not come is refused, by the café’s calendar', async () => {
  expect(await add(2, '2026-03-15')).toMatchObject({ ok: false, reason: 'not-yet' })
  expect(await cafe.db.ingredientPrice.count()).toBe(0)
  await cafe.db.cafe.update({ where: { id: cafe.owner.cafeId }, data: { timeZone: 'Pacific/Auckland' } })
  cafe.pass(4 * HOUR)
  expect(await add(2, '2026-03-15')).toMatchObject({ ok: true })
})

test('a mistyped price is struck out: it stays to be read, counts no more, and the diary says who', async () => {
  await add(2)
  cafe.pass(HOUR)
  await add(200)
  const card = await readIngredient(cafe.world, keeper(), coffee)
  const wrong = card?.prices.find((price) => price.priceMinor === 20_000)
  expect(card?.prices.map((price) => price.counts)).toEqual([true, false])
  expect(await strikePrice(cafe.world, cafe.owner, coffee, wrong?.id ?? '')).toMatchObject({ ok: true })
  expect(await glass()).toBe(12)
  const after = await readIngredient(cafe.world, keeper(), coffee)
  expect(after?.prices.map(({ priceMinor, counts, struckAt }) => [priceMinor, counts, struckAt !== null])).toEqual([
    [20_000, false, true],
    [200, true, false],
  ])
  expect(await strikePrice(cafe.world, cafe.owner, coffee, wrong?.id ?? '')).toMatchObject({ ok: true })
  const lines = await cafe.db.auditRow.findMany({ where: { act: 'price-struck-out' } })
  expect(lines.map(({ actorId, subjectId }) => [actorId, subjectId])).toEqual([[cafe.owner.userId, coffee]])
})

test('nobody of another café strikes a price, nor under another ingredient', async () => {
  await add(2)
  const { id } = await cafe.db.ingredientPrice.findFirstOrThrow()
  expect(await strikePrice(cafe.world, cafe.stranger, coffee, id)).toMatchObject({ reason: 'gone' })
  expect(await strikePrice(cafe.world, cafe.owner, cafe.unreadId, id)).toMatchObject({ reason: 'gone' })
  expect(await cafe.db.ingredientPrice.count({ where: { struckAt: null } })).toBe(1)
})

test('a price of a pack of nothing stops no page: it is not known, and its page says which', async () => {
  await add(2)
  cafe.pass(HOUR)
  await row('pack-of-nothing', { day: '2026-03-14', priceMinor: 100, packMg: 0 })
  expect(await glass()).toBe('price of Zephyrine beans')
  expect((await readRecipe(cafe.world, keeper(), cafe.recipeId))?.trials).toHaveLength(4)
  const card = await readIngredient(cafe.world, keeper(), coffee)
  expect(card?.prices.map(({ id, isBad }) => [id === 'pack-of-nothing', isBad])).toEqual([
    [true, true],
    [false, false],
  ])
  await strikePrice(cafe.world, cafe.owner, coffee, 'pack-of-nothing')
  expect(await glass()).toBe(12)
})

test.each([
  [0.0004, 'too-little'],
  [3_000_000, 'too-much'], // three tonnes: 3 000 000 000 mg are more than 2³¹ − 1
])('a pack of %d g is refused', async (grams, reason) => {
  const pack = { value: grams, typed: String(grams) }
  expect(await addPriceOf(cafe.world, keeper(), coffee, gram(2, { pack }))).toMatchObject({ ok: false, reason })
  expect(await cafe.db.ingredientPrice.count()).toBe(0)
})

test('the store and the home page go by the same day', async () => {
  await add(2)
  await adoptWithoutPanel(cafe.world, cafe.owner, cafe.recipeId, { trialId: cafe.trialIds[2] ?? '', reason: 'Menu.' })
  cafe.pass(HOUR)
  await row('dearer', { day: '2026-03-16', priceMinor: 900 })
  const priced = async () =>
    (await readShelves(cafe.world, keeper(), 'Zephyrine beans')).ingredients[0]?.price?.priceMinor
  const repriced = async () => (await readHome(cafe.world, keeper(), true)).repriced.map((one) => one.ingredients)
  expect([await priced(), await repriced()]).toEqual([200, []])
  cafe.pass(48 * HOUR)
  expect([await priced(), await repriced()]).toEqual([900, [['Zephyrine beans']]])
  await strikePrice(cafe.world, cafe.owner, coffee, 'dearer')
  expect([await priced(), await repriced()]).toEqual([200, []])
})
