/** What stands in for a line, from the store to a draft; amounts worked by hand beside each check. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { IngredientForm } from '@/lib/forms/ingredient-form'
import { readHome } from '@/lib/tasks/house/read-home'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { openPanel } from '@/lib/tasks/pour/open-panel'
import { readChanges } from '@/lib/tasks/recipe/read-changes'
import { correctIngredient } from '@/lib/tasks/store/keep-ingredient'
import { lookAtChanges } from '@/lib/tasks/store/look-at-changes'
import { makeInstead } from '@/lib/tasks/trial/make-instead'
import { readCard } from '@/lib/tasks/trial/read-card'
import { readInstead, type Instead } from '@/lib/tasks/trial/read-instead'
import { readTrial } from '@/lib/tasks/trial/read-trial'
import { cafeForTest, type TestCafe } from '@/test/support/cafe'

let cafe: TestCafe
beforeEach(async () => {
  cafe = await cafeForTest()
})
afterEach(() => cafe.close())

/** The milk of the first trial: 60 g. */
const MILK = '1'
const first = () => cafe.trialIds[0] ?? ''

/** g per 100 g as the store keeps them; what is left out is not known. */
const holds = (row: { fat?: number; sugars?: number; water?: number; protein?: number }) => ({
  ...(row.fat === undefined ? {} : { fatMg: row.fat * 1000 }),
  ...(row.sugars === undefined ? {} : { sugarsMg: row.sugars * 1000 }),
  ...(row.water === undefined ? {} : { waterMg: row.water * 1000 }),
  ...(row.protein === undefined ? {} : { proteinMg: row.protein * 1000 }),
})

// USDA Standard Reference, as in usda-sr-composition.test.ts
const evaporated = holds({ fat: 7.56, sugars: 10.04, water: 74.04, protein: 6.81 })
const thinned = holds({ fat: 3.78, sugars: 5.02, water: 87.02, protein: 3.405 })

async function shelve(name: string, more: object = {}): Promise<string> {
  const id = cafe.world.id()
  const createdAt = cafe.world.now()
  const base = { id, cafeId: cafe.owner.cafeId, name, kind: 'milk', createdAt, labelReadAt: createdAt }
  await cafe.db.ingredient.create({ data: { ...base, ...more } })
  return id
}

const isOfMilk = (more: object) => cafe.db.ingredient.updateMany({ where: { name: 'Zephyrine milk' }, data: more })

async function read(line = MILK): Promise<Instead> {
  const found = await readInstead(cafe.world, cafe.owner, first(), line)
  if (!found) throw new Error('no such line')
  return found
}

const weighed = ({ parts }: Instead['proposals'][number]) => parts.map(({ part, mg }) => [part.name, mg])
const named = ({ proposals }: Instead) => proposals.map(({ parts }) => parts.map(({ part }) => part.name).join(' + '))

async function make(proposal: Instead['proposals'][number] | undefined): Promise<string> {
  const made = await makeInstead(cafe.world, cafe.owner, first(), MILK, proposal?.key ?? '', true)
  if (!made.ok) throw new Error(made.reason)
  return made.value
}

test('where only fat is known, two milks stand in by Pearson’s square, and what is not known is named', async () => {
  await isOfMilk(holds({ fat: 11.5, protein: 3 }))
  await shelve('Whole milk', holds({ fat: 3.25 }))
  await shelve('Heavy cream', holds({ fat: 37, sugars: 3 }))
  const { proposals } = await read()
  // by hand: (11.5 − 3.25)/(37 − 3.25) of 60 g = 14.67 g of cream
  expect(proposals.map(weighed)[0]).toEqual([
    ['Whole milk', 45_300],
    ['Heavy cream', 14_700],
  ])
  expect(proposals[0]?.notCompared).toEqual([
    { figure: 'sugars', of: ['Zephyrine milk', 'Whole milk'] },
    { figure: 'solids', of: ['Zephyrine milk', 'Heavy cream', 'Whole milk'] },
    { figure: 'protein', of: ['Heavy cream', 'Whole milk'] },
  ])
  expect(proposals[0]?.differences).toEqual({ fat: expect.closeTo(0, 9), sugars: null, solids: null, protein: null })
})

test('a thick milk and water stand in for a thin one, water where the house has some', async () => {
  await isOfMilk(thinned)
  await shelve('Evaporated milk', evaporated)
  expect((await read()).proposals.map(weighed)).toEqual([[['Evaporated milk', 60_000]]])
  await shelve('Tap water', { kind: 'water' })
  // by hand: half of each figure
  expect((await read()).proposals.map(weighed)).toEqual([
    [
      ['Evaporated milk', 30_000],
      ['Tap water', 30_000],
    ],
  ])
})

test('of the same kind, on the shelf, and without what is missing in it', async () => {
  await isOfMilk(thinned)
  await shelve('Oat drink', thinned)
  await shelve('Sweet oats', { ...thinned, kind: 'sweetener' })
  await shelve('Old oats', { ...thinned, archivedAt: cafe.world.now() })
  await shelve('Mystery drink')
  const found = await read()
  expect(named(found)).toEqual(['Oat drink'])
  expect(found.unlike).toEqual(['Mystery drink'])
})

test('a preparation stands in: by the batch in date that goes first, unless what is missing went into it', async () => {
  const sugar = await cafe.db.ingredient.findFirstOrThrow({ where: { name: 'Quillberry sugar' } })
  await cafe.db.ingredient.update({
    where: { id: sugar.id },
    data: holds({ fat: 0, sugars: 100, water: 0, protein: 0 }),
  })
  const honey = await shelve('Honey', { ...holds({ fat: 0, sugars: 80, water: 20, protein: 0 }), kind: 'sweetener' })
  const { cafeId } = cafe.owner
  const preparationId = cafe.world.id()
  const createdAt = cafe.world.now()
  const name = 'Honey water'
  await cafe.db.preparation.create({ data: { id: preparationId, cafeId, name, kind: 'syrup', createdAt } })
  const input = { cafeId, position: 0, ingredientId: honey, amountMg: 100_000, typed: '100', unit: 'g' }
  for (const number of [1, 2, 3]) {
    const discardAt = new Date(createdAt.getTime() + (number === 3 ? -1 : 1) * 3_600_000)
    const create = { ...input, id: cafe.world.id() }
    const row = { id: cafe.world.id(), cafeId, preparationId, number, outputMg: 100_000, discardAt, createdAt }
    await cafe.db.preparationBatch.create({ data: { ...row, inputs: { create } } })
  }
  const of = async (trial: number) => {
    const found = await readInstead(cafe.world, cafe.owner, cafe.trialIds[trial] ?? '', '1')
    return (
      found &&
      named(found)
        .filter((names) => !names.includes(' + '))
        .toSorted()
    )
  }
  // the syrup of the café holds the sugar itself
  expect(await of(1)).toEqual(['Honey', 'Honey water, batch 1'])
})

test('what it costs more is told where all has a price, and not where one has none', async () => {
  await isOfMilk(thinned)
  const oat = await shelve('Oat drink', thinned)
  const milk = await cafe.db.ingredient.findFirstOrThrow({ where: { name: 'Zephyrine milk' } })
  const price = async (ingredientId: string, priceMinor: number) => {
    const row = { packMg: 1_000_000, packTyped: '1', packUnit: 'kg', since: cafe.world.now(), day: '2026-03-01' }
    const made = { createdAt: cafe.world.now(), createdById: cafe.owner.userId }
    const data = { id: cafe.world.id(), cafeId: cafe.owner.cafeId, ingredientId, priceMinor, ...row, ...made }
    await cafe.db.ingredientPrice.create({ data })
  }
  await price(milk.id, 150)
  expect((await read()).proposals[0]?.costDifference).toBeNull()
  await price(oat, 250)
  // by hand: 60 g at 2.50 less 60 g at 1.50 for a kilogram
  expect((await read()).proposals[0]?.costDifference).toBeCloseTo(0.06, 9)
})

test('allergens that are new stand above it, and labels that nobody has read', async () => {
  const { cafeId } = cafe.owner
  await isOfMilk(thinned)
  const says = (allergen: string) => ({
    allergens: { create: { id: cafe.world.id(), cafeId, allergen, state: 'contains' } },
  })
  const milk = await cafe.db.ingredient.findFirstOrThrow({ where: { name: 'Zephyrine milk' } })
  await cafe.db.ingredient.update({ where: { id: milk.id }, data: says('milk') })
  await shelve('Soy drink', { ...thinned, ...says('soybeans') })
  await shelve('Other milk', { ...holds({ fat: 4, sugars: 5, water: 87, protein: 3 }), ...says('milk') })
  await shelve('Oat drink', { ...holds({ fat: 3, sugars: 6, water: 87, protein: 1 }), labelReadAt: null })
  const told = new Map((await read()).proposals.map((one) => [weighed(one)[0]?.[0], one]))
  expect(told.get('Soy drink')).toMatchObject({ graver: [{ name: 'Soybeans', state: 'contains' }], unread: [] })
  expect(told.get('Other milk')).toMatchObject({ graver: [], unread: [] })
  expect(told.get('Oat drink')).toMatchObject({ unread: ['Oat drink'] })
  expect(told.get('Oat drink')?.graver.map(({ state }) => state)).toContain('not-stated')
})

test('made a trial it is a draft of its own, with what stands in on the line and a note that nobody tasted it', async () => {
  await isOfMilk(thinned)
  await shelve('Evaporated milk', evaporated)
  await shelve('Tap water', { kind: 'water' })
  await cafe.db.trialLine.updateMany({
    where: { trialId: first(), position: 1 },
    data: {
      weighedMg: 61_000,
      toleranceMg: 500,
      unit: 'ml',
      typed: '58',
      microdensity: 1_030_000,
      temperatureDeciC: 50,
    },
  })
  await cafe.db.trial.update({ where: { id: first() }, data: { frozenAt: cafe.world.now() } })
  const id = await make((await read()).proposals[0])
  const trial = await cafe.db.trial.findUniqueOrThrow({
    where: { id },
    include: { lines: { orderBy: { position: 'asc' }, include: { ingredient: true } }, notes: true },
  })
  expect(trial).toMatchObject({ parentId: first(), frozenAt: null, number: 5 })
  expect(trial.lines.map(({ ingredient, targetMg, typed, unit }) => [ingredient?.name, targetMg, typed, unit])).toEqual(
    [
      ['Zephyrine beans', 60_000, '60', 'g'],
      ['Evaporated milk', 30_000, '30', 'g'],
      ['Tap water', 30_000, '30', 'g'],
    ],
  )
  const kept = { weighedMg: null, toleranceMg: null, microdensity: null }
  expect(trial.lines.slice(1)).toMatchObject([
    { ...kept, role: 'milk', temperatureDeciC: 50 },
    { ...kept, role: 'water', temperatureDeciC: null },
  ])
  expect(trial.notes).toMatchObject([
    { text: 'Evaporated milk and Tap water stand in for Zephyrine milk, not tasted.' },
  ])
  const diary = await cafe.db.auditRow.findMany({ where: { subjectId: id } })
  expect(diary).toMatchObject([{ act: 'trial-branched', actorId: cafe.owner.userId }])
  expect((await cafe.db.trialLine.findMany({ where: { trialId: first() } })).length).toBe(2)
})

test('at a cost level that used something else, that is what is replaced', async () => {
  const { cafeId } = cafe.owner
  await shelve('Oat drink', thinned)
  const ingredientId = await shelve('Cheap milk', evaporated)
  const line = await cafe.db.trialLine.findFirstOrThrow({ where: { trialId: first(), position: 1 } })
  const levelId = cafe.world.id()
  await cafe.db.costLevel.create({
    data: { id: levelId, cafeId, recipeId: cafe.recipeId, name: 'economy', position: 1 },
  })
  const row = { id: cafe.world.id(), cafeId, lineId: line.id, costLevelId: levelId, ingredientId }
  await cafe.db.lineAlternative.create({ data: row })
  await cafe.db.trial.update({ where: { id: first() }, data: { costLevelId: levelId } })
  const found = await read()
  expect(found.line.name).toBe('Cheap milk')
  const oat = found.proposals.find((one) => weighed(one)[0]?.[0] === 'Oat drink')
  const sheet = await readTrial(cafe.world, cafe.owner, await make(oat))
  expect(sheet?.build.lines.map(({ name }) => name)).toEqual(['Zephyrine beans', 'Oat drink'])
})

test('until its label is read no panel of it opens, and its card says what is not stated', async () => {
  await isOfMilk(thinned)
  const oat = await shelve('Oat drink', { ...thinned, labelReadAt: null })
  const id = await make((await read()).proposals[0])
  const plan = cafe.plan({ cups: [cafe.trialIds[1] ?? '', cafe.trialIds[2] ?? '', id] })
  const panel = await planPanel(cafe.world, cafe.owner, cafe.recipeId, plan)
  if (!panel.ok) throw new Error(panel.reason)
  const open = () => openPanel(cafe.world, cafe.owner, panel.value)
  const onCard = async () => (await readCard(cafe.world, cafe.owner, id))?.sheet.figures.allergens
  expect(await open()).toMatchObject({ reason: 'labels-unread', detail: { names: 'Oat drink' } })
  const unread = async () => (await readCard(cafe.world, cafe.owner, id))?.unread
  expect(await unread()).toEqual([{ id: oat, name: 'Oat drink' }])
  expect((await onCard())?.unread).toEqual(['Oat drink'])
  expect((await onCard())?.rows.some(({ freeFromAllowed }) => freeFromAllowed)).toBe(false)
  await cafe.db.ingredient.update({ where: { id: oat }, data: { labelReadAt: cafe.world.now() } })
  expect(await open()).toEqual({ ok: true, value: null })
  expect((await onCard())?.unread).toEqual([])
  expect(await unread()).toEqual([])
})

test('a label read later asks to look at the trials it stands in, and at no others', async () => {
  await isOfMilk(thinned)
  const oat = await shelve('Oat drink', { ...thinned, labelReadAt: null })
  const id = await make((await read()).proposals[0])
  const says = async (allergens: Record<string, string>, labelRead?: string) => {
    const said = { name: 'Oat drink', kind: 'milk', form: 'liquid', allergens, labelRead }
    const figures = { fat: '3.78', sugars: '5.02', water: '87.02', protein: '3.405' }
    const sent = IngredientForm.parse({ ...said, ...figures })
    expect(await correctIngredient(cafe.world, cafe.owner, oat, sent, null)).toMatchObject({ ok: true })
    cafe.pass(1000)
  }
  // read whole, it names nothing: nobody need look
  await says({}, 'on')
  expect(await readChanges(cafe.world, cafe.owner)).toEqual([])
  await cafe.db.ingredient.update({ where: { id: oat }, data: { labelReadAt: null } })

  await says({ 'gluten-cereals': 'contains' }, 'on')
  const told = { trial: { id }, standing: 'draft', allergens: [{ id: 'gluten-cereals', state: 'contains' }] }
  expect(await readChanges(cafe.world, cafe.owner)).toMatchObject([{ name: 'Oat drink', glasses: [told] }])
  const home = async () => (await readHome(cafe.world, cafe.owner, true)).changes
  expect(await home()).toMatchObject([{ name: 'Oat drink', glasses: [told] }])
  const seen = (await home())[0]?.changes.map((one) => one.id) ?? []
  await lookAtChanges(cafe.world, cafe.owner, oat, seen)
  expect(await home()).toEqual([])

  // a draft in which it never stood for anything is no surprise to who wrote it
  await cafe.db.trial.update({ where: { id }, data: { parentId: null } })
  await cafe.db.ingredient.update({ where: { id: oat }, data: { labelReadAt: null } })
  await says({ 'gluten-cereals': 'contains', milk: 'may-contain' }, 'on')
  expect(await home()).toEqual([])
})

test('what is new with it is read before anything is made of it, and who read it stands in the note', async () => {
  const { cafeId } = cafe.owner
  await isOfMilk(thinned)
  const soy = { id: cafe.world.id(), cafeId, allergen: 'soybeans', state: 'contains' }
  await shelve('Soy drink', { ...thinned, allergens: { create: soy } })
  const { key = '' } = (await read()).proposals[0] ?? {}
  const use = (isRead: boolean) => makeInstead(cafe.world, cafe.owner, first(), MILK, key, isRead)
  expect(await use(false)).toMatchObject({ reason: 'allergens-unread' })
  expect(await cafe.db.trial.count()).toBe(4)
  expect(await use(true)).toMatchObject({ ok: true })
  expect(await cafe.db.trialNote.findMany()).toMatchObject([
    {
      text: 'Soy drink stands in for Zephyrine milk, not tasted. New with it, and read: Soybeans.',
      authorId: cafe.owner.userId,
    },
  ])
})

test('what has changed since it was shown is refused, and nothing is made', async () => {
  await isOfMilk(thinned)
  const id = await shelve('Evaporated milk', evaporated)
  await shelve('Tap water', { kind: 'water' })
  const { key = '' } = (await read()).proposals[0] ?? {}
  await cafe.db.ingredient.update({ where: { id }, data: { fatMg: 9000 } })
  const use = (who: TestCafe['owner'], trial: string, line: string) => makeInstead(cafe.world, who, trial, line, key)
  expect(await use(cafe.owner, first(), MILK)).toMatchObject({ reason: 'changed' })
  expect(await use(cafe.owner, first(), '7')).toMatchObject({ reason: 'gone' })
  expect(await use(cafe.owner, 'no-such', MILK)).toMatchObject({ reason: 'gone' })
  expect(await use(cafe.stranger, first(), MILK)).toMatchObject({ reason: 'gone' })
  expect(await cafe.db.trial.count()).toBe(4)
  expect(await cafe.db.trialNote.count()).toBe(0)
})

test('coffee is not told by these figures; a line of which nothing is known is like nothing; another café sees neither', async () => {
  expect(await read('0')).toMatchObject({ compared: 'not-this-kind', proposals: [] })
  await shelve('Oat drink', thinned)
  expect(await read()).toMatchObject({ compared: 'nothing-known', proposals: [], unlike: ['Oat drink'] })
  expect(await readInstead(cafe.world, cafe.stranger, first(), MILK)).toBeNull()
  expect(await readInstead(cafe.world, cafe.owner, first(), '7')).toBeNull()
})

test('of many the nearest are shown, and how many more there are', async () => {
  await isOfMilk(thinned)
  for (let place = 0; place < 11; place++)
    await shelve(`Milk ${place}`, holds({ fat: 3.78 + place, sugars: 5.02, water: 87.02, protein: 3.405 }))
  const found = await read()
  expect(named(found)).toEqual(['Milk 0', 'Milk 1', 'Milk 2', 'Milk 3', 'Milk 4'])
  expect(found.further).toBe(6)
})

test('single things are shown behind whatever many blends are nearer', async () => {
  await isOfMilk(holds({ fat: 10 }))
  // by hand: each of four thin and each of four fat ones meet at 10 g of fat, sixteen blends; alone none is nearer than 4 g
  for (const fat of [1, 2, 3, 4, 16, 17, 18, 19]) await shelve(`Milk ${fat}`, holds({ fat }))
  const found = await read()
  expect(named(found).map((names) => names.includes(' + '))).toEqual([
    true,
    true,
    true,
    true,
    true,
    false,
    false,
    false,
  ])
  expect(named(found).slice(5).toSorted()).toEqual(['Milk 16', 'Milk 17', 'Milk 4'])
  expect(found.further).toBe(16 + 8 - 8)
})
