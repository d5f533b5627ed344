import { afterEach, beforeEach, expect, test } from 'vitest'
import { adoptWithoutPanel } from '@/lib/tasks/recipe/keep-recipe'
import { keepSizePrice, priceUsualSize } from '@/lib/tasks/recipe/keep-size-price'
import { keepSizeShares } from '@/lib/tasks/recipe/keep-size-shares'
import { readSizes } from '@/lib/tasks/trial/read-sizes'
import { cafeForTest, type TestCafe } from '@/test/support/cafe'

let cafe: TestCafe
beforeEach(async () => {
  cafe = await cafeForTest()
  const { cafeId } = cafe.owner
  await cafe.db.ingredient.updateMany({ data: { microdensity: 1_000_000 } })
  const vessel = { cafeId, createdAt: cafe.world.now() }
  await cafe.db.vessel.create({ data: { id: 'tall', name: 'Tall', brimUl: 240_000, packMinor: 20, ...vessel } })
  await cafe.db.vessel.create({ data: { id: 'short', name: 'Short', brimUl: 100_000, fillUl: 60_000, ...vessel } })
  await cafe.db.trial.update({ where: { id: trialId() }, data: { vesselId: 'tall', method: 'prepared' } })
  await cafe.db.recipe.update({ where: { id: cafe.recipeId }, data: { packMinor: 5 } })
  await cafe.db.ingredientPrice.createMany({
    data: (await cafe.db.ingredient.findMany()).map(({ id }) => ({
      ...{ id: `price-${id}`, cafeId, ingredientId: id, packMg: 1_000_000, packTyped: '1000', packUnit: 'g' },
      ...{ priceMinor: 1000, since: cafe.world.now(), day: '2026-03-01', createdAt: cafe.world.now() },
    })),
  })
})
afterEach(() => cafe.close())

const trialId = () => cafe.trialIds[0] ?? ''
const reader = () => ({ ...cafe.owner, cafe: { currency: 'EUR', currencyDigits: 2, allergenList: 'eu' } })
const asOnSheet = { ice: null, coffee: null }

test('every vessel of the store and the usual sizes, by volume; its own is as on the sheet, the others are scaled', async () => {
  const read = await readSizes(cafe.world, reader(), trialId(), asOnSheet)
  expect(read?.sizes.map(({ vessel, isOwn }) => [vessel.name, isOwn])).toEqual([
    ['Short', false],
    ['Tall', true],
    ['12 US fl oz', false],
    ['16 US fl oz', false],
    ['22 US fl oz', false],
  ])
  const grams = read?.sizes.map(({ made }) => (made.known ? made.scale.steps.map(({ add }) => add) : made.missing))
  // 60 g of each of two at 1 g/ml: 120 ml of 240. To the fill line of 60 ml 30 g each; half of 354.88 ml 88.72 g each (by hand)
  expect(grams?.slice(0, 3)).toEqual([
    [expect.closeTo(30, 6), expect.closeTo(30, 6)],
    [60, 60],
    [expect.closeTo(88.7206, 3), expect.closeTo(88.7206, 3)],
  ])
})

test('a size costs what goes in and its own packaging; of a cup nobody has measured the packaging is asked for', async () => {
  const read = await readSizes(cafe.world, reader(), trialId(), asOnSheet)
  const costs = read?.sizes.map(({ made }) => made.known && made.figures.cost.perGlass)
  // 10.00 a kg: 60 g cost 0.60, 0.05 for the drink's own packaging; 120 g 1.20, and 0.20 for the vessel (by hand)
  expect(costs?.slice(0, 2)).toMatchObject([
    { known: true, value: expect.closeTo(0.65, 9) },
    { known: true, value: expect.closeTo(1.45, 9) },
  ])
  expect(costs?.[2]).toMatchObject({ known: false, missing: ['cost of packaging'] })
})

test('shares that are set move the sheet’s glass too, and then it is scaled like the others', async () => {
  const read = await readSizes(cafe.world, reader(), trialId(), { ice: null, coffee: 0.25 })
  const tall = read?.sizes.find(({ vessel }) => vessel.name === 'Tall')
  expect(tall).toMatchObject({ isOwn: false, made: { shares: { ice: 0, coffee: 0.25 } } })
  expect(tall?.made.known && tall.made.scale.steps.map(({ add }) => add)).toEqual([
    expect.closeTo(30, 6),
    expect.closeTo(90, 6),
  ])
  const iced = await readSizes(cafe.world, reader(), trialId(), { ice: 0.4, coffee: null })
  expect(iced?.sizes[0]?.made).toEqual({ known: false, missing: ['ice on the sheet'] })
})

test('its own glass costs what the sheet of its day says, whatever the vessel costs by now', async () => {
  const sent = { trialId: trialId(), reason: 'It is what we sell.' }
  expect(await adoptWithoutPanel(cafe.world, reader(), cafe.recipeId, sent)).toMatchObject({ ok: true })
  await cafe.db.vessel.update({ where: { id: 'tall' }, data: { packMinor: 90, brimUl: 300_000 } })
  const read = await readSizes(cafe.world, reader(), trialId(), asOnSheet)
  const tall = read?.sizes.find(({ isOwn }) => isOwn)
  expect(tall?.vessel.brimMl).toBe(240)
  expect(tall?.made.known && tall.made.figures.cost.perGlass).toMatchObject({ value: expect.closeTo(1.45, 9) })
})

test('a size sells at a price of its own, with share of cost and margin; empty, it is not sold', async () => {
  await cafe.db.recipe.update({ where: { id: cafe.recipeId }, data: { taxBp: 1000, priceMinor: 990 } })
  const of = { recipeId: cafe.recipeId, vesselId: 'short' }
  const keep = (price: number | undefined, who = reader()) => keepSizePrice(cafe.world, who, of, { price }, null)
  const short = async () =>
    (await readSizes(cafe.world, reader(), trialId(), asOnSheet))?.sizes.find(({ vessel }) => vessel.name === 'Short')
  expect((await short())?.priced).toEqual({ vesselId: 'short', priceMinor: null })
  expect(await keep(2.2)).toEqual({ ok: true, value: null })
  const size = await short()
  expect(size?.priced).toEqual({ vesselId: 'short', priceMinor: 220 })
  // by hand: 2.20 with 10 % tax is 2.00 net; 0.65 of it is 32.5 %, 1.35 is left
  expect(size?.made.known && size.made.figures.cost).toMatchObject({
    netPrice: { value: expect.closeTo(2, 9) },
    costShare: { value: expect.closeTo(32.5, 6) },
    contribution: { value: expect.closeTo(1.35, 9) },
  })
  // the sheet's own glass sells at the recipe's price: 9.90 with tax is 9.00 net
  const own = (await readSizes(cafe.world, reader(), trialId(), asOnSheet))?.sizes.find(({ isOwn }) => isOwn)
  expect(own?.priced).toBeNull()
  expect(own?.made.known && own.made.figures.cost.netPrice).toMatchObject({ value: expect.closeTo(9, 9) })
  expect(await keep(undefined)).toEqual({ ok: true, value: null })
  expect((await short())?.priced?.priceMinor).toBeNull()
  const diary = await cafe.db.auditRow.findMany({ where: { subjectId: cafe.recipeId }, orderBy: { at: 'asc' } })
  expect(diary.map(({ act }) => act).toSorted()).toEqual(['size-price-removed', 'size-priced'])
})

test('a price of a size is of this café, of what is there, and in the money the page was opened with', async () => {
  const yen = { ...cafe.owner, cafe: { currency: 'JPY', currencyDigits: 0, allergenList: 'eu' } }
  const of = (vesselId: string) => ({ recipeId: cafe.recipeId, vesselId })
  const keep = (who: ReturnType<typeof reader>, vesselId: string) =>
    keepSizePrice(cafe.world, who, of(vesselId), { price: 350 }, null)
  expect(await keep(yen, 'short')).toMatchObject({ reason: 'currency-changed' })
  expect(await keep(reader(), 'no-such')).toMatchObject({ reason: 'gone' })
  expect(await keep({ ...cafe.stranger, cafe: reader().cafe }, 'short')).toMatchObject({ reason: 'gone' })
  await cafe.db.vessel.update({ where: { id: 'short' }, data: { archivedAt: cafe.world.now() } })
  expect(await keep(reader(), 'short')).toMatchObject({ reason: 'gone' })
  expect(await cafe.db.sizePrice.count()).toBe(0)
})

test('a usual size that gets a price is a vessel of the store from then on, once', async () => {
  const price = (ounces: number, price: number | undefined, who = reader()) =>
    priceUsualSize(cafe.world, who, { recipeId: cafe.recipeId, ounces }, { price })
  expect(await price(16, undefined)).toMatchObject({ ok: true })
  expect(await cafe.db.vessel.count()).toBe(2)
  expect(await price(16, 4.5)).toEqual({ ok: true, value: null })
  expect(await price(16, 4.8)).toEqual({ ok: true, value: null })
  // 16 US fl oz at 29.5735295625 ml: NIST Handbook 44, Appendix C
  expect(await cafe.db.vessel.findMany({ where: { name: '16 US fl oz' } })).toMatchObject([{ brimUl: 473_176 }])
  const sizes = (await readSizes(cafe.world, reader(), trialId(), null))?.sizes ?? []
  expect(sizes.filter(({ vessel }) => vessel.name === '16 US fl oz')).toMatchObject([
    { usual: null, menuPrice: 4.8, priced: { priceMinor: 480 } },
  ])
  expect(sizes.map(({ usual }) => usual).filter((usual) => usual !== null)).toEqual([12, 22])
  const yen = { ...cafe.owner, cafe: { currency: 'JPY', currencyDigits: 0, allergenList: 'eu' } }
  expect(await price(22, 400, yen)).toMatchObject({ reason: 'currency-changed' })
  expect(await price(22, 4, { ...cafe.stranger, cafe: reader().cafe })).toMatchObject({ reason: 'gone' })
  expect(await cafe.db.vessel.count({ where: { name: '22 US fl oz' } })).toBe(0)
})

test('in other shares, too, the sheet’s own glass sells at the recipe’s price', async () => {
  await cafe.db.recipe.update({ where: { id: cafe.recipeId }, data: { priceMinor: 990 } })
  const sizes = (await readSizes(cafe.world, reader(), trialId(), { ice: null, coffee: 0.25 }))?.sizes
  expect(sizes?.map(({ vessel, menuPrice }) => [vessel.name, menuPrice]).slice(0, 2)).toEqual([
    ['Short', null],
    ['Tall', 9.9],
  ])
})

test('shares that the recipe keeps hold for all its sizes until others are asked for', async () => {
  const shares = { ice: null, coffee: 0.25 }
  expect(await keepSizeShares(cafe.world, cafe.stranger, trialId(), shares)).toMatchObject({ reason: 'gone' })
  expect(await keepSizeShares(cafe.world, cafe.owner, trialId(), shares)).toEqual({ ok: true, value: null })
  const tall = async (asked: typeof asOnSheet | null) =>
    (await readSizes(cafe.world, reader(), trialId(), asked))?.sizes.find(({ vessel }) => vessel.name === 'Tall')
  expect(await tall(null)).toMatchObject({ isOwn: false, made: { shares: { ice: 0, coffee: 0.25 } } })
  expect(await tall(asOnSheet)).toMatchObject({ isOwn: true })
  const diary = await cafe.db.auditRow.findMany({ where: { act: 'size-shares-kept' } })
  expect(diary.map(({ detail }) => JSON.parse(detail ?? '') as unknown)).toEqual([
    { ice: 'as on the sheet', coffee: '25 %' },
  ])
})
