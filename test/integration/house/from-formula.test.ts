/** Where no batch of a preparation is in date, what is made starts from its formula, down to what is bought. */
import { createElement } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { MadeFirst } from '@/app/ui/made-first'
import { TrialForm } from '@/lib/forms/trial-form'
import { readOnShelf } from '@/lib/tasks/bar/on-shelf'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { openList } from '@/lib/tasks/pour/open-list'
import { openPanel } from '@/lib/tasks/pour/open-panel'
import { readJugFills } from '@/lib/tasks/pour/read-jug-fills'
import { readMake } from '@/lib/tasks/trial/read-make'
import { recordTrial } from '@/lib/tasks/trial/record-trial'
import { cafeForTest, type TestCafe } from '@/test/support/cafe'

const cook = () => ({
  ...cafe.owner,
  cafe: { currency: 'EUR', currencyDigits: 2, allergenList: 'eu', timeZone: 'UTC' },
})
const idOf = async (name: string) => (await cafe.db.ingredient.findFirstOrThrow({ where: { name } })).id
const gone = new Date('2026-03-01T10:00:00Z')

let cafe: TestCafe
let sugar: string
let milk: string
let trialId: string
beforeEach(async () => {
  cafe = await cafeForTest() // its clock stands at 2026-03-14 10:00 UTC
  const { db, world } = cafe
  await db.ingredient.updateMany({ data: { microdensity: 1_000_000, labelReadAt: world.now() } })
  sugar = await idOf('Quillberry sugar')
  milk = await idOf('Zephyrine milk')
  await preparation('marlow', 'Marlow syrup', 'syrup')
  await preparation('mead', 'Mead base', 'other')
  await db.preparationBatch.create({
    data: {
      ...{ id: 'old', cafeId: cafe.owner.cafeId, preparationId: 'marlow', number: 1, discardAt: gone },
      ...{ outputMg: 100_000, brixHundredths: 5000, createdAt: gone },
    },
  })
  const sheet = { name: 'Sweet one', method: 'plunger-pot', steps: [] }
  const lines = [{ part: 'preparation:marlow', amount: '30', unit: 'g' }]
  const made = await recordTrial(world, cook(), cafe.recipeId, TrialForm.parse({ ...sheet, lines }))
  if (!made.ok) throw new Error(made.reason)
  trialId = made.value
})
afterEach(() => cafe.close())

const preparation = (id: string, name: string, kind: string) =>
  cafe.db.preparation.create({ data: { id, cafeId: cafe.owner.cafeId, name, kind, createdAt: gone } })

type Input = { readonly ingredientId: string } | { readonly preparationId: string }

/** A formula of equal amounts of 500 g. */
async function formula(preparationId: string, inputs: readonly Input[], more: object = {}) {
  const { cafeId } = cafe.owner
  const id = `formula of ${preparationId}`
  const create = inputs.map((input, position) => ({
    ...{ id: `${id} ${position}`, cafeId, position: position + 1, amountMg: 500_000, typed: '500', unit: 'g' },
    ...input,
  }))
  const row = { id, cafeId, preparationId, version: 1, createdAt: gone, inputs: { create } }
  await cafe.db.preparationFormula.create({ data: { ...row, ...more } })
}

const make = () => readMake(cafe.world, cook(), trialId, { count: 'glasses', amount: 10, spare: 0 })
const said = (first: Parameters<typeof MadeFirst>[0]['first']) =>
  renderToStaticMarkup(createElement(MadeFirst, { first }))

// by hand: 10 · 30 g = 300 g of 800 g that 500 g and 500 g are boiled down to: 300 · 500 / 800 = 187.5 g of each
test('many glasses are made from the formula, which must come first and be measured', async () => {
  await formula('marlow', [{ ingredientId: sugar }, { ingredientId: milk }], {
    targetMg: 800_000,
    brixHundredths: 6250,
  })
  const read = await make()
  expect(read?.first).toMatchObject([{ name: 'Marlow syrup', by: 'formula', version: 1, brix: 62.5 }])
  expect(read?.make).toMatchObject({
    known: true,
    preparations: [
      {
        name: 'Marlow syrup',
        grams: 300,
        inputs: [
          { name: 'Quillberry sugar', grams: 187.5 },
          { name: 'Zephyrine milk', grams: 187.5 },
        ],
      },
    ],
    buy: [
      { name: 'Quillberry sugar', grams: 187.5 },
      { name: 'Zephyrine milk', grams: 187.5 },
    ],
  })
  expect(said(read?.first ?? [])).toContain('make it first, by formula version 1, to 62.5 °Bx')
  expect(said(read?.first ?? [])).toContain('Measure its °Bx before it is poured')
  const shelf = await readOnShelf(cafe.world, cook(), trialId, {})
  expect(shelf.map(({ name }) => name)).toEqual(['Quillberry sugar', 'Zephyrine milk'])
})

// by hand: 300 g of 1000 g take 150 g of sugar and 150 g of base, a mix that loses nothing: 75 g and 75 g
test('a formula inside a formula is made before it, down to what is bought', async () => {
  await formula('marlow', [{ ingredientId: sugar }, { preparationId: 'mead' }], { targetMg: 1_000_000 })
  await formula('mead', [{ ingredientId: sugar }, { ingredientId: milk }])
  const read = await make()
  expect(read?.first.map(({ name }) => name)).toEqual(['Mead base', 'Marlow syrup'])
  expect(read?.make).toMatchObject({
    preparations: [
      { name: 'Mead base', grams: 150 },
      { name: 'Marlow syrup', grams: 300 },
    ],
    buy: [
      { name: 'Quillberry sugar', grams: 225 },
      { name: 'Zephyrine milk', grams: 75 },
    ],
  })
})

test('where there is neither a batch in date nor a formula, or nobody knows what it gives, that is said', async () => {
  const none = await make()
  expect(none).toMatchObject({ first: [{ name: 'Marlow syrup', by: 'no formula' }], make: { known: false } })
  expect(said(none?.first ?? [])).toContain('neither a batch of Marlow syrup in date nor a formula')
  await formula('marlow', [{ ingredientId: sugar }])
  const open = await make()
  expect(open).toMatchObject({ first: [{ by: 'no yield' }], make: { known: false } })
  expect(said(open?.first ?? [])).toContain('nobody knows what its formula gives')
})

test('a batch in date is poured, and nothing is made by the formula', async () => {
  await formula('marlow', [{ ingredientId: sugar }], { targetMg: 400_000 })
  await cafe.db.preparationBatch.update({ where: { id: 'old' }, data: { discardAt: null } })
  expect((await make())?.first).toEqual([])
})

test('a panel’s jug whose batch went past its date meanwhile is filled by the formula', async () => {
  const { db, world, owner } = cafe
  const { cafeId } = owner
  const input = { id: 'in', cafeId, position: 1, ingredientId: sugar, amountMg: 100_000, typed: '100', unit: 'g' }
  await db.preparationBatch.update({
    where: { id: 'old' },
    data: { discardAt: null, microdensity: 1_000_000, inputs: { create: input } },
  })
  await formula('marlow', [{ ingredientId: sugar }], { targetMg: 500_000, brixHundredths: 5000 })
  const plan = cafe.plan({ cups: [cafe.trialIds[0] ?? '', trialId] })
  const planned = await planPanel(world, owner, cafe.recipeId, plan)
  if (!planned.ok) throw new Error(planned.reason)
  const opened = await openPanel(world, owner, planned.value)
  if (!opened.ok) throw new Error(opened.reason)
  const list = await openList(world, owner, planned.value, 'filling')
  if (!list.ok) throw new Error(list.reason)
  const read = () => readJugFills(world, owner, planned.value, list.value, 276, {})
  expect((await read())?.first).toEqual([])
  await db.preparationBatch.update({ where: { id: 'old' }, data: { discardAt: gone } })
  const sheet = await read()
  expect(sheet?.first).toMatchObject([{ name: 'Marlow syrup', by: 'formula', version: 1 }])
  const syrup = sheet?.batches.find(({ name }) => name === 'Marlow syrup')
  // 500 g of sugar give 500 g, so each gram takes one
  expect(syrup?.inputs).toEqual([{ name: 'Quillberry sugar', grams: expect.closeTo(syrup?.grams ?? 0, 6) }])
})
