/** What many glasses take, worked by hand beside each check. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { addPriceOf } from '@/lib/tasks/store/add-price'
import { gramsOnShelf, readOnShelf } from '@/lib/tasks/bar/on-shelf'
import { keepCounts } from '@/lib/tasks/bar/keep-counts'
import { readMake, type ToMake } from '@/lib/tasks/trial/read-make'
import { findBatch } from '@/lib/db/batches'
import { findIngredient } from '@/lib/db/ingredients'
import { batchMark, ingredientMark } from '@/lib/tasks/opened-with'
import { cafeForTest, type TestCafe } from '@/test/support/cafe'

const money = { currency: 'EUR', currencyDigits: 2, allergenList: 'eu', timeZone: 'UTC' }

let cafe: TestCafe
beforeEach(async () => {
  cafe = await cafeForTest()
})
afterEach(() => cafe.close())

const keeper = () => ({ ...cafe.owner, cafe: money })
const trial = (place: number) => cafe.trialIds[place] ?? ''

async function glasses(place: number, amount: number, spare = 0): Promise<ToMake> {
  const read = await readMake(cafe.world, keeper(), trial(place), { count: 'glasses', amount, spare })
  if (!read?.make?.known) throw new Error(`not known: ${JSON.stringify(read?.make)}`)
  return read.make
}

test('packs to open and what is used of them in money, by the price of today', async () => {
  const beans = await cafe.db.ingredient.findFirstOrThrow({ where: { name: 'Zephyrine beans' } })
  await addPriceOf(cafe.world, keeper(), beans.id, {
    price: 9,
    pack: { value: 250, typed: '250' },
    packUnit: 'g',
    usable: undefined,
    since: undefined,
    note: undefined,
  })
  const { lines, buy, meltGrams } = await glasses(0, 10, 0.1)
  expect(meltGrams).toBeNull()
  // by hand: 60 g · 10 · 1.1; 660 g of packs of 250 g are three; 660 g at 9.00 for 250 g
  expect(lines.map(({ name, grams }) => [name, grams])).toEqual([
    ['Zephyrine beans', expect.closeTo(660, 9)],
    ['Zephyrine milk', expect.closeTo(660, 9)],
  ])
  expect(buy[0]).toMatchObject({ packs: { count: 3, grams: 250 }, cost: expect.closeTo(23.76, 9) })
  expect(buy[1]).toMatchObject({ packs: null, cost: null })
})

test('a pack that just suffices is one pack', async () => {
  const beans = await cafe.db.ingredient.findFirstOrThrow({ where: { name: 'Zephyrine beans' } })
  const pack = { value: 600, typed: '600' }
  const price = { price: 9, pack, packUnit: 'g', usable: undefined, since: undefined, note: undefined }
  await addPriceOf(cafe.world, keeper(), beans.id, price)
  expect((await glasses(0, 10)).buy[0]?.packs?.count).toBe(1)
})

test('batches nobody weighed are asked for, the inner one too; weighed, the inner one is made first', async () => {
  const asked = await readMake(cafe.world, keeper(), trial(3), { count: 'glasses', amount: 2, spare: 0 })
  expect(asked?.make?.known).toBe(false)
  await cafe.db.preparationBatch.updateMany({ data: { outputMg: 100_000 } })
  const { preparations } = await glasses(3, 2)
  // by hand: 120 g of syrup from 100 g of sugar and 100 g of base, which gave 100 g; 120 g of base from 120 g of paste
  expect(preparations).toEqual([
    {
      name: 'Ombrelle base',
      grams: expect.closeTo(120, 9),
      inputs: [{ name: 'Quillberry paste', grams: expect.closeTo(120, 9) }],
    },
    {
      name: 'Ombrelle syrup',
      grams: expect.closeTo(120, 9),
      inputs: [
        { name: 'Quillberry sugar', grams: expect.closeTo(120, 9) },
        { name: 'Ombrelle base, batch 1', grams: expect.closeTo(120, 9) },
      ],
    },
  ])
})

test('grounds come with the water they are brewed with', async () => {
  await cafe.db.ingredient.updateMany({ where: { name: 'Zephyrine beans' }, data: { form: 'grounds' } })
  const brew = { method: 'drip', ratioKind: 'water-in', ratioMilli: 15_000, retentionMilli: 2000 }
  await cafe.db.trial.update({ where: { id: trial(2) }, data: brew })
  // by hand: 120 g dry, fifteen times that of water, two of each gram kept
  const unsaid = { grind: null, waterTemperature: null, seconds: null }
  expect((await glasses(2, 2)).lines).toEqual([
    expect.objectContaining({ grams: 120, brew: { water: 1800, beverage: expect.closeTo(1560, 9), ...unsaid } }),
  ])
})

test('millilitres strained off ice ask for temperatures by their line', async () => {
  const ice = cafe.world.id()
  const { cafeId } = cafe.owner
  await cafe.db.ingredient.create({
    data: { id: ice, cafeId, name: 'Ice', kind: 'ice', form: 'ice', createdAt: cafe.world.now() },
  })
  await cafe.db.ingredient.updateMany({ where: { name: 'Zephyrine milk' }, data: { microdensity: 1_000_000 } })
  await cafe.db.trialLine.updateMany({ where: { trialId: trial(0), position: 0 }, data: { ingredientId: ice } })
  const strained = { count: 'strained', amount: 500, spare: 0 } as const
  const asked = await readMake(cafe.world, keeper(), trial(0), strained)
  expect(JSON.stringify(asked?.make)).toContain('Zephyrine milk')
  await cafe.db.trial.update({ where: { id: trial(0) }, data: { iceDeciC: 0 } })
  await cafe.db.trialLine.updateMany({ where: { trialId: trial(0), position: 1 }, data: { temperatureDeciC: 200 } })
  const read = await readMake(cafe.world, keeper(), trial(0), strained)
  if (!read?.make?.known) throw new Error(`not known: ${JSON.stringify(read?.make)}`)
  // by hand: 60 g at 3.9 J/(g·K) from 20 °C melt 4 680/333.55 = 14.031 g; 60 ml + 14.031/0.99984 ml, times 500/74.033
  expect(read.make.meltGrams).toBeCloseTo((14.031 * 500) / 74.033, 1)
  expect(read.make.lines[1]?.grams).toBeCloseTo((60 * 500) / 74.033, 1)
})

test('another café makes nothing of it', async () => {
  expect(await readMake(cafe.world, cafe.stranger, trial(0), null)).toBeNull()
})

test('what is left of a batch in date is taken off where somebody weighed it; what nobody weighed is said to be unknown', async () => {
  const [inner = '', outer = ''] = cafe.batchIds
  await cafe.db.preparationBatch.update({ where: { id: inner }, data: { outputMg: 100_000 } })
  await cafe.db.preparationBatch.update({ where: { id: outer }, data: { outputMg: 200_000 } })
  const make = async (query: Record<string, string>) => {
    const onShelf = await readOnShelf(cafe.world, keeper(), trial(3), query)
    const ten = { count: 'glasses', amount: 10, spare: 0 } as const
    const read = await readMake(cafe.world, keeper(), trial(3), ten, gramsOnShelf(onShelf))
    if (!read?.make?.known) throw new Error('not known')
    const { preparations } = read.make
    const batches = onShelf.filter(({ kind }) => kind === 'batch')
    return [preparations.map(({ name, grams }) => [name, Math.round(grams * 1e6) / 1e6]), batches] as const
  }
  const [all, unsaid] = await make({})
  const have = (syrup: string, base?: string) => ({
    [`have-${outer}`]: syrup,
    ...(base && { [`have-${inner}`]: base }),
  })
  expect(unsaid).toMatchObject([
    { name: 'Ombrelle base', number: 1, grams: null, field: `have-${inner}`, counted: null },
    { name: 'Ombrelle syrup', number: 1, grams: null, field: `have-${outer}`, counted: null },
  ])
  // by hand: 600 g of syrup from 300 g of sugar and 300 g of base
  expect(all).toEqual([
    ['Ombrelle base', 300],
    ['Ombrelle syrup', 600],
  ])
  // by hand: less 200 g of syrup are 400 g, with 200 g of base, of which 50 g are there
  expect((await make(have('200', '50')))[0]).toEqual([
    ['Ombrelle base', 150],
    ['Ombrelle syrup', 400],
  ])
  expect((await make(have('600')))[0]).toEqual([])
  // past its date it is not there, whatever somebody weighed; put aside, neither
  await cafe.db.preparationBatch.update({ where: { id: outer }, data: { discardAt: cafe.world.now() } })
  await cafe.db.preparationBatch.update({ where: { id: inner }, data: { archivedAt: cafe.world.now() } })
  expect(await make(have('200', '50'))).toEqual([all, []])
})

test('what is there of what is bought is not bought again; nobody’s word is not nothing', async () => {
  const beans = await cafe.db.ingredient.findFirstOrThrow({ where: { name: 'Zephyrine beans' } })
  const price = { price: 9, packUnit: 'g', usable: undefined, since: undefined, note: undefined }
  await addPriceOf(cafe.world, keeper(), beans.id, { ...price, pack: { value: 250, typed: '250' } })
  const buys = async (query: Record<string, string>) => {
    const there = gramsOnShelf(await readOnShelf(cafe.world, keeper(), trial(0), query))
    const ten = { count: 'glasses', amount: 10, spare: 0 } as const
    const read = await readMake(cafe.world, keeper(), trial(0), ten, there)
    return read?.make?.known ? read.make.buy.map((one) => [one.there, one.packs?.count]) : null
  }
  // by hand: 600 g are three packs of 250 g; less 150 g they are 450 g in two; less 600 g none
  expect(await buys({})).toEqual([
    [null, 3],
    [null, undefined],
  ])
  expect((await buys({ [`have-${beans.id}`]: '150' }))?.[0]).toEqual([150, 2])
  expect((await buys({ [`have-${beans.id}`]: '600' }))?.[0]).toEqual([600, 0])
})

test('a count is kept with its moment, offered that day, told with its age later, and never used by itself', async () => {
  const [inner = '', outer = ''] = cafe.batchIds
  await cafe.db.preparationBatch.updateMany({ data: { outputMg: 100_000 } })
  const { id: sugar } = await cafe.db.ingredient.findFirstOrThrow({ where: { name: 'Quillberry sugar' } })
  const marks = async () => {
    const [ingredient, batch] = [
      await findIngredient(cafe.db, cafe.owner.cafeId, sugar),
      await findBatch(cafe.db, cafe.owner.cafeId, outer),
    ]
    return [ingredient && ingredientMark(ingredient), batch && batchMark(batch)]
  }
  const opened = await marks()
  const typed = { [`have-${outer}`]: '40,5', [`have-${sugar}`]: '1200', [`have-${inner}`]: '' }
  const keep = (query: Record<string, string>) => keepCounts(cafe.world, keeper(), trial(3), query)
  expect(await keep({ ...typed, [`have-${inner}`]: 'half' })).toMatchObject({ ok: false, reason: 'mistyped' })
  expect(await cafe.db.auditRow.count({ where: { act: 'shelf-counted' } })).toBe(0)
  expect(await keep(typed)).toMatchObject({ ok: true, value: 2 })
  // no form that somebody has open is stale by it
  expect(await marks()).toEqual(opened)
  const shelf = async (query: Record<string, string> = {}) => {
    const rows = await readOnShelf(cafe.world, keeper(), trial(3), query)
    return [outer, sugar, inner].map((id) => {
      const one = rows.find((row) => row.id === id)
      return one && [one.typed, one.grams, one.counted?.grams ?? null, one.counted?.nights ?? null]
    })
  }
  expect(await shelf()).toEqual([
    ['40.5', null, 40.5, 0],
    ['1200', null, 1200, 0],
    ['', null, null, null],
  ])
  // sent back as it was offered it was not counted again
  cafe.pass(3_600_000)
  expect(await keep({ [`have-${outer}`]: '40.5' })).toMatchObject({ ok: true, value: 0 })
  // three nights on: told with its age, in no field, in no sum
  cafe.pass(3 * 86_400_000)
  expect((await shelf())[0]).toEqual(['', null, 40.5, 3])
  expect(gramsOnShelf(await readOnShelf(cafe.world, keeper(), trial(3), { amount: '10' })).made.size).toBe(0)
  // the same amount counted again another day is another count
  expect(await keep({ [`have-${outer}`]: '40.5' })).toMatchObject({ ok: true, value: 1 })
  expect((await shelf())[0]).toEqual(['40.5', null, 40.5, 0])
  const lines = await cafe.db.auditRow.findMany({ where: { act: 'shelf-counted' }, orderBy: { at: 'asc' } })
  expect(lines.map(({ detail, subjectId }) => [detail, subjectId])).toEqual([
    ['{"counted":"Ombrelle syrup, batch 1: 40.5 g; Quillberry sugar: 1,200 g"}', trial(3)],
    ['{"counted":"Ombrelle syrup, batch 1: 40.5 g"}', trial(3)],
  ])
  // put aside between the look and the keeping: the others are kept, each with its line in the diary
  const { $transaction } = cafe.db
  const late = Object.assign(Object.create(cafe.db) as typeof cafe.db, {
    $transaction: async (act: never) => {
      await cafe.db.ingredient.update({ where: { id: sugar }, data: { archivedAt: cafe.world.now() } })
      return $transaction.call(cafe.db, act)
    },
  })
  const told = await keepCounts({ ...cafe.world, db: late }, keeper(), trial(3), {
    [`have-${outer}`]: '31',
    [`have-${sugar}`]: '900',
  })
  expect(told).toMatchObject({ ok: true, value: 1 })
  expect(await cafe.db.auditRow.count({ where: { act: 'shelf-counted', detail: { contains: ': 31 g' } } })).toBe(1)
  // of another café nothing is asked, and nothing kept
  expect(await keepCounts(cafe.world, { ...cafe.stranger, cafe: money }, trial(3), typed)).toMatchObject({ value: 0 })
})

test('each line says how near it is weighed on the house’s scale, and what that scale cannot weigh', async () => {
  const near = async () => (await glasses(0, 10)).lines.map(({ tolerance }) => tolerance)
  // by hand: ten times 60 g of each, of which 2 % are 12 g; the sheet’s own tolerance, where it says one, goes with the glasses
  await cafe.db.trialLine.updateMany({ data: { toleranceMg: null } })
  for (const one of await near()) expect(one).toEqual({ grams: expect.closeTo(12, 9) as number, decimals: 1 })
  await cafe.db.trialLine.updateMany({ data: { toleranceMg: 500 } })
  for (const one of await near()) expect(one?.grams).toBeCloseTo(5, 9)
  await cafe.db.trialLine.updateMany({ data: { targetMg: 20, toleranceMg: null } })
  const { lines } = await glasses(0, 10)
  // a twentieth of 1 g is half of 0.1 g, a twentieth of 10 g half of 1 g: fifty glasses of 0.02 g coffee, five hundred of milk
  expect(lines.map(({ tooCoarse }) => tooCoarse?.glasses)).toEqual([50, 500])
})

test('water and ice cost nothing unless priced, as on the sheet', async () => {
  await cafe.db.ingredient.updateMany({ where: { name: 'Zephyrine milk' }, data: { kind: 'water' } })
  const { buy, cost } = await glasses(0, 10)
  expect(buy.map(({ cost: one }) => one)).toEqual([null, 0])
  expect(cost.without).toEqual(['Zephyrine beans'])
})
