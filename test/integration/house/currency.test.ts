/** After a change of currency 3.50 still reads 3.50, or the change is refused and says which figures stand in its way. */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { MONEY_COLUMNS } from '@/lib/db/money-columns'
import { CafeForm } from '@/lib/forms/account-form'
import { addPriceOf } from '@/lib/tasks/store/add-price'
import { changeCafe } from '@/lib/tasks/house/change-cafe'
import { adoptWithoutPanel, changeRecipeMoney } from '@/lib/tasks/recipe/keep-recipe'
import { keepSizePrice } from '@/lib/tasks/recipe/keep-size-price'
import { enterVessel } from '@/lib/tasks/store/keep-vessel'
import { readTrial } from '@/lib/tasks/trial/read-trial'
import { strikePrice } from '@/lib/tasks/store/strike-price'
import { cafeForTest, type TestCafe } from '@/test/support/cafe'

let cafe: TestCafe
let coffee: string
beforeEach(async () => {
  cafe = await cafeForTest()
  coffee = (await cafe.db.ingredient.findFirstOrThrow({ where: { name: 'Zephyrine beans' } })).id
})
afterEach(() => cafe.close())

const euro = { currency: 'EUR', currencyDigits: 2, allergenList: 'eu', timeZone: 'UTC' }
const dinar = { ...euro, currency: 'KWD', currencyDigits: 3 }
const yen = { ...euro, currency: 'JPY', currencyDigits: 0 }
const keeper = () => ({ ...cafe.owner, cafe: euro })
const settle = (currency: string) =>
  changeCafe(
    cafe.world,
    cafe.owner,
    CafeForm.parse({ cafeName: 'Kiosk', currency, allergenList: 'eu', timeZone: 'UTC' }),
    null,
  )

async function price(amount: number) {
  const sent = { price: amount, pack: { value: 10, typed: '10' }, packUnit: 'g' }
  const added = await addPriceOf(cafe.world, keeper(), coffee, {
    ...sent,
    usable: undefined,
    since: undefined,
    note: undefined,
  })
  if (!added.ok) throw new Error(added.reason)
}

async function layMoney(figures: { price: number; vessel: number; menu: number; pack: number; fixed: number }) {
  await price(figures.price)
  const glass = { name: 'Tall glass', brim: { value: 400, typed: '400' }, pack: figures.vessel }
  await enterVessel(cafe.world, keeper(), { ...glass, water: undefined, fill: undefined, isClear: undefined })
  await changeRecipeMoney(
    cafe.world,
    keeper(),
    cafe.recipeId,
    {
      price: figures.menu,
      packaging: figures.pack,
      fixed: figures.fixed,
      tax: undefined,
      targetCost: undefined,
      waste: undefined,
      room: undefined,
    },
    null,
  )
}

/** Every amount of the café as one reads it. */
async function figures() {
  const { currency, currencyDigits } = await cafe.db.cafe.findUniqueOrThrow({ where: { id: cafe.owner.cafeId } })
  const read = (minor: number | null) =>
    minor === null ? null : (minor / 10 ** currencyDigits).toFixed(currencyDigits)
  const prices = await cafe.db.ingredientPrice.findMany({ orderBy: { createdAt: 'asc' } })
  const vessel = await cafe.db.vessel.findFirst()
  const recipe = await cafe.db.recipe.findUniqueOrThrow({ where: { id: cafe.recipeId } })
  const amounts = [vessel?.packMinor ?? null, recipe.priceMinor, recipe.packMinor, recipe.fixedMinor]
  return [currency, ...prices.map((one) => read(one.priceMinor)), ...amounts.map(read)]
}

test('every amount keeps its figure, to a currency with more decimals and back', async () => {
  await layMoney({ price: 3.5, vessel: 0.14, menu: 4.2, pack: 0, fixed: 1200 })
  expect(await settle('KWD')).toMatchObject({ ok: true })
  expect(await figures()).toEqual(['KWD', '3.500', '0.140', '4.200', '0.000', '1200.000'])
  expect(await settle('USD')).toMatchObject({ ok: true })
  expect(await figures()).toEqual(['USD', '3.50', '0.14', '4.20', '0.00', '1200.00'])
  // 60 g at 3.50 for 10 g
  const glass = (
    await readTrial(cafe.world, { ...cafe.owner, cafe: { ...euro, currency: 'USD' } }, cafe.trialIds[2] ?? '')
  )?.figures.cost.perGlass
  expect(glass).toMatchObject({ known: true, value: 21, unit: 'USD' })
})

test('the price of a size keeps its figure too, and is named by drink and vessel where it cannot', async () => {
  await layMoney({ price: 3, vessel: 1, menu: 4, pack: 0, fixed: 1200 })
  const vessel = await cafe.db.vessel.findFirstOrThrow()
  await keepSizePrice(cafe.world, keeper(), { recipeId: cafe.recipeId, vesselId: vessel.id }, { price: 4.75 }, null)
  const kept = async () => (await cafe.db.sizePrice.findFirstOrThrow()).priceMinor
  expect(await settle('JPY')).toMatchObject({ detail: { figures: '4.75 (Cold kiosk coffee, Tall glass)' } })
  expect(await settle('KWD')).toMatchObject({ ok: true })
  expect(await kept()).toBe(4750)
  expect(await settle('USD')).toMatchObject({ ok: true })
  expect(await kept()).toBe(475)
})

test('to a currency without decimals only whole figures go; the first that do not are named', async () => {
  await layMoney({ price: 3.5, vessel: 0.14, menu: 4, pack: 0, fixed: 1200 })
  const before = await figures()
  expect(await settle('JPY')).toMatchObject({
    ok: false,
    reason: 'too-fine',
    detail: { figures: '3.50 (Zephyrine beans), 0.14 (Tall glass)' },
  })
  expect(await figures()).toEqual(before)
  await cafe.db.vessel.deleteMany()
  await cafe.db.ingredientPrice.updateMany({ data: { priceMinor: 400 } })
  expect(await settle('JPY')).toMatchObject({ ok: true })
  expect(await figures()).toEqual(['JPY', '4', null, '4', '0', '1200'])
})

test('a figure that would be more than one figure holds is refused', async () => {
  await layMoney({ price: 3, vessel: 1, menu: 4, pack: 0, fixed: 20_000_000 })
  // 20 000 000.000 KWD are 20 000 000 000 fils; 2³¹ − 1 are 2 147 483 647
  expect(await settle('KWD')).toMatchObject({
    reason: 'too-great',
    detail: { figures: '20,000,000.00 (Cold kiosk coffee)' },
  })
  expect((await figures())[0]).toBe('EUR')
})

test('a price that was struck out stands in no way, and what it said is kept', async () => {
  await price(3.5)
  const { id } = await cafe.db.ingredientPrice.findFirstOrThrow()
  await strikePrice(cafe.world, cafe.owner, coffee, id)
  cafe.pass(1000)
  await price(4)
  expect(await settle('JPY')).toMatchObject({ ok: true })
  expect((await figures()).slice(0, 3)).toEqual(['JPY', '4', '4'])
  expect(await cafe.db.ingredientPrice.findUniqueOrThrow({ where: { id } })).toMatchObject({ note: 'it said 3.50 EUR' })
})

test('settings saved in the same currency change no figure, whatever this computer thinks of its decimals', async () => {
  await layMoney({ price: 3.5, vessel: 0.14, menu: 4, pack: 0, fixed: 1200 })
  await cafe.db.cafe.update({ where: { id: cafe.owner.cafeId }, data: { currency: 'JPY' } })
  expect(await settle('JPY')).toMatchObject({ ok: true })
  expect(await figures()).toEqual(['JPY', '3.50', '0.14', '4.00', '0.00', '1200.00'])
})

test('amounts of another café are left alone', async () => {
  const other = cafe.stranger.cafeId
  const createdAt = cafe.world.now()
  await cafe.db.vessel.create({ data: { id: 'v', cafeId: other, name: 'V', brimUl: 1, packMinor: 14, createdAt } })
  await settle('KWD')
  expect(await cafe.db.vessel.findUnique({ where: { id: 'v' } })).toMatchObject({ packMinor: 14 })
})

test('a frozen trial keeps the money of its day, and the two are not taken for one', async () => {
  await layMoney({ price: 3.5, vessel: 1, menu: 4, pack: 0, fixed: 1200 })
  const trialId = cafe.trialIds[2] ?? ''
  await adoptWithoutPanel(cafe.world, cafe.owner, cafe.recipeId, { trialId, reason: 'On the menu.' })
  await settle('KWD')
  const sheet = await readTrial(cafe.world, { ...cafe.owner, cafe: dinar }, trialId)
  expect(sheet?.figures.cost.perGlass).toMatchObject({ value: 21, unit: 'EUR' })
  expect(sheet?.costToday).toMatchObject({ value: 21, unit: 'KWD' })
})

test('an amount typed into a page of the former currency is refused', async () => {
  await settle('JPY')
  const sent = { price: 350, pack: { value: 10, typed: '10' }, packUnit: 'g' }
  const more = { usable: undefined, since: undefined, note: undefined }
  expect(await addPriceOf(cafe.world, keeper(), coffee, { ...sent, ...more })).toMatchObject({
    reason: 'currency-changed',
  })
  const glass = { name: 'Tall glass', brim: { value: 400, typed: '400' }, pack: 14 }
  const vessel = { ...glass, water: undefined, fill: undefined, isClear: undefined }
  expect(await enterVessel(cafe.world, keeper(), vessel)).toMatchObject({ reason: 'currency-changed' })
  expect(await enterVessel(cafe.world, { ...cafe.owner, cafe: yen }, vessel)).toMatchObject({ ok: true })
})

test('every column of minor units is in the list', () => {
  const schema = readFileSync(join(process.cwd(), 'prisma/schema.prisma'), 'utf8')
  const inSchema = [...schema.matchAll(/^model (\w+) \{([^}]*)\}/gm)].flatMap(([, model = '', body = '']) =>
    [...body.matchAll(/^\s+(\w*Minor)\s+Int/gm)].map(([, column = '']) => `${model}.${column}`),
  )
  const listed = Object.entries(MONEY_COLUMNS).flatMap(([model, columns]) =>
    columns.map((column) => `${model.replace(/^./, (first) => first.toUpperCase())}.${column}`),
  )
  expect(inSchema.toSorted()).toEqual(listed.toSorted())
  expect(inSchema.length).toBeGreaterThan(0)
})
