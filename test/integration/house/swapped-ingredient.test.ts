/** What stands on a line brings its own density, kind and role; what nobody named becomes nothing in particular. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { BatchForm } from '@/lib/forms/preparation-form'
import { FirstTrialForm, TrialForm, type TrialSent } from '@/lib/forms/trial-form'
import { climbLadder } from '@/lib/tasks/trial/climb-ladder'
import { importTrial } from '@/lib/tasks/trial/import-trial'
import { correctBatch, recordBatch } from '@/lib/tasks/store/keep-batch'
import { readTrial } from '@/lib/tasks/trial/read-trial'
import { changeTrial, recordFirstTrial, recordTrial } from '@/lib/tasks/trial/record-trial'
import { cafeForTest, type TestCafe } from '@/test/support/cafe'

let cafe: TestCafe
beforeEach(async () => {
  cafe = await cafeForTest()
})
afterEach(() => cafe.close())

const money = { currency: 'EUR', currencyDigits: 2, allergenList: 'eu', timeZone: 'UTC' }
const reader = () => ({ ...cafe.owner, cafe: money })

async function ingredient(name: string, kind: string, more: object = {}): Promise<string> {
  const id = cafe.world.id()
  const { cafeId } = cafe.owner
  const createdAt = cafe.world.now()
  await cafe.db.ingredient.create({ data: { id, cafeId, name, kind, createdAt, labelReadAt: createdAt, ...more } })
  return `ingredient:${id}`
}

const sheet = (...lines: object[]): TrialSent => TrialForm.parse({ name: 'A sheet', method: 'no-coffee', lines })

const value = <Value>(made: { ok: true; value: Value } | { ok: false; reason: string }): Value => {
  if (!made.ok) throw new Error(made.reason)
  return made.value
}

async function linesOf(trialId: string) {
  return cafe.db.trialLine.findMany({ where: { trialId }, orderBy: { position: 'asc' } })
}

const milkDensity = { microdensity: 1_031_000 }
const condensed = { microdensity: 1_292_000 }

// The densities are those of the trade's table (USDA weight of a US fl oz): whole milk 1.031, condensed milk 1.292, honey 1.433.
test('a density that was typed for another ingredient is not reckoned with: the new one brings its own', async () => {
  const milk = await ingredient('Whole milk', 'milk', milkDensity)
  const thick = await ingredient('Condensed milk', 'milk', condensed)
  const line = { amount: '30', unit: 'ml', density: '1.031', densityFor: milk }
  const id = value(await recordTrial(cafe.world, reader(), cafe.recipeId, sheet({ ...line, part: milk })))
  // by hand: 30 ml · 1.031 = 30.93 g, and 30 ml · 1.292 = 38.76 g
  expect(await linesOf(id)).toMatchObject([{ targetMg: 30_930, microdensity: 1_031_000 }])
  value(await changeTrial(cafe.world, reader(), id, sheet({ ...line, part: thick }), null))
  expect(await linesOf(id)).toMatchObject([{ targetMg: 38_760, microdensity: 1_292_000, role: 'milk' }])
  // What is typed for the very ingredient counts before what the store says of it.
  value(
    await changeTrial(
      cafe.world,
      reader(),
      id,
      sheet({ ...line, part: thick, densityFor: thick, density: '1.3' }),
      null,
    ),
  )
  expect(await linesOf(id)).toMatchObject([{ targetMg: 39_000, microdensity: 1_300_000 }])
})

test('where the new ingredient has no density it is asked for, whatever was typed for the old one', async () => {
  const honey = await ingredient('Honey', 'sweetener', { microdensity: 1_433_000 })
  const oat = await ingredient('Oat drink', 'milk')
  const line = { part: oat, amount: '100', unit: 'ml', density: '1.433' }
  for (const densityFor of [honey, undefined]) {
    expect(await recordTrial(cafe.world, reader(), cafe.recipeId, sheet({ ...line, densityFor }))).toMatchObject({
      reason: 'density-missing',
      detail: { line: '0', name: 'Oat drink' },
    })
  }
  // Grams need none, and keep none.
  const id = value(
    await recordTrial(cafe.world, reader(), cafe.recipeId, sheet({ ...line, densityFor: honey, unit: 'g' })),
  )
  expect(await linesOf(id)).toMatchObject([{ targetMg: 100_000, microdensity: null }])
})

test('the role of a line is what its ingredient is, unless somebody said otherwise', async () => {
  const thick = await ingredient('Condensed milk', 'milk', condensed)
  const id = value(
    await recordTrial(
      cafe.world,
      reader(),
      cafe.recipeId,
      sheet({ part: thick, amount: '30' }, { part: thick, amount: '30', role: 'sweetener' }),
    ),
  )
  expect((await linesOf(id)).map(({ role }) => role)).toEqual(['milk', 'sweetener'])
})

test('something new is what somebody said it is, and nothing that nobody said', async () => {
  const zest = { part: 'new', newName: 'Orange zest', amount: '2', unit: 'g' }
  const unsaid = TrialForm.safeParse({ name: 'A sheet', method: 'no-coffee', lines: [{ ...zest, role: 'coffee' }] })
  expect(unsaid.error?.issues.map(({ path }) => path.join('.'))).toEqual(['lines.0.newKind', 'lines.0.newForm'])
  const said = sheet({ ...zest, newKind: 'other', newForm: 'powder' })
  const id = value(await recordTrial(cafe.world, reader(), cafe.recipeId, said))
  expect(await cafe.db.ingredient.findFirstOrThrow({ where: { name: 'Orange zest' } })).toMatchObject({
    kind: 'other',
    form: 'powder',
    labelReadAt: null,
  })
  expect(await linesOf(id)).toMatchObject([{ role: 'other' }])
})

/** A batch of 870 g whose Brix is by its sugar: 479.4 g sugar, 55.1 °Bx. */
async function syrup(): Promise<string> {
  const { db, world, owner } = cafe
  const at = { cafeId: owner.cafeId, createdAt: world.now() }
  const sugar = await ingredient('Beet sugar', 'sweetener', {
    form: 'powder',
    sugarsMg: 100_000,
    freeSugarsMg: 100_000,
    waterMg: 0,
  })
  const water = await ingredient('Spring water', 'water', { sugarsMg: 0 })
  const input = (ref: string, position: number, amountMg: number) => ({
    id: world.id(),
    cafeId: owner.cafeId,
    position,
    ingredientId: ref.slice('ingredient:'.length),
    amountMg,
    typed: String(amountMg / 1000),
    unit: 'g',
  })
  await db.preparation.create({ data: { ...at, id: 'p', name: 'House syrup', kind: 'syrup' } })
  await db.preparationBatch.create({
    data: {
      ...at,
      id: 'b',
      preparationId: 'p',
      number: 1,
      outputMg: 1_000_000,
      inputs: { create: [input(sugar, 1, 500_000), input(water, 2, 500_000)] },
    },
  })
  return 'batch:b'
}

// 500 g of sugar in 1000 g is 50 °Bx: 1.22965 g/ml at 20 °C (ICUMSA SPS-4, as in the trade's table), so 20 ml weigh 24.593 g.
test('a house syrup by the spoon has the density of its own batch', async () => {
  const batch = await syrup()
  const id = value(
    await recordTrial(cafe.world, reader(), cafe.recipeId, sheet({ part: batch, amount: '20', unit: 'ml' })),
  )
  const [line] = await linesOf(id)
  expect(Math.abs((line?.targetMg ?? 0) - 24_593)).toBeLessThan(2)
  expect(Math.abs((line?.microdensity ?? 0) - 1_229_650)).toBeLessThan(20)
  expect(line?.role).toBe('sweetener')
})

test('in a batch, too, the density belongs to the ingredient it was typed for', async () => {
  const milk = await ingredient('Whole milk', 'milk', milkDensity)
  const thick = await ingredient('Condensed milk', 'milk', condensed)
  await cafe.db.preparation.create({
    data: { id: 'p', cafeId: cafe.owner.cafeId, name: 'Milk blend', kind: 'other', createdAt: cafe.world.now() },
  })
  const batch = (part: string, unit = 'ml') =>
    BatchForm.parse({ inputs: [{ part, amount: '100', unit, density: '1.031', densityFor: milk }] })
  const id = value(await recordBatch(cafe.world, reader(), 'p', batch(milk)))
  const inputs = () => cafe.db.batchInput.findMany({ where: { batchId: id } })
  expect(await inputs()).toMatchObject([{ amountMg: 103_100 }])
  value(await correctBatch(cafe.world, reader(), id, batch(thick), null))
  expect(await inputs()).toMatchObject([{ amountMg: 129_200, microdensity: 1_292_000 }])
  value(await correctBatch(cafe.world, reader(), id, batch(thick, 'kg'), null))
  expect(await inputs()).toMatchObject([{ microdensity: null }])
})

test('a rung with another ingredient holds the grams; the volume of the old one is not kept as if it were its own', async () => {
  const milk = await ingredient('Whole milk', 'milk', milkDensity)
  const zest = await ingredient('Orange zest', 'other', { form: 'powder' })
  const line = { part: milk, amount: '140', unit: 'ml' }
  const id = value(await recordTrial(cafe.world, reader(), cafe.recipeId, sheet(line)))
  const rungs = value(await climbLadder(cafe.world, reader(), id, { vary: 'part', line: '1', parts: [zest] }))
  // by hand: 140 ml · 1.031 = 144.34 g
  expect(await linesOf(rungs[0] ?? '')).toMatchObject([
    { targetMg: 144_340, typed: '144.34', unit: 'g', microdensity: null, role: 'other' },
  ])
})

const first = (coffee: object, more: object[] = [], method = 'plunger-pot') =>
  FirstTrialForm.parse({ name: 'First', method, water: '150', lines: [{ amount: '15', ...coffee }, ...more] })

test('a first trial takes the coffee that was chosen, and asks where none was', async () => {
  await ingredient('Aardvark zest', 'coffee', { form: 'grounds' })
  const own = await ingredient('Roast of the house', 'coffee', { form: 'grounds' })
  const asks = (line: object) =>
    FirstTrialForm.safeParse({ name: 'First', method: 'plunger-pot', water: '150', lines: [line] }).error?.issues.map(
      ({ path }) => path.join('.'),
    )
  expect(asks({ amount: '15' })).toEqual(['lines.0.part'])
  const id = value(await recordFirstTrial(cafe.world, reader(), cafe.recipeId, first({ part: own })))
  expect((await readTrial(cafe.world, reader(), id))?.build.lines.map(({ name }) => name)).toEqual([
    'Roast of the house',
  ])

  const fresh = { part: 'new', newName: 'New roast', newKind: 'coffee', newForm: 'grounds' }
  value(await recordFirstTrial(cafe.world, reader(), cafe.recipeId, first(fresh)))
  expect(await cafe.db.ingredient.findFirstOrThrow({ where: { name: 'New roast' } })).toMatchObject({
    kind: 'coffee',
    form: 'grounds',
  })
  for (const left of ['newName', 'newForm'])
    expect(asks({ amount: '15', ...fresh, [left]: undefined })).toEqual([`lines.0.${left}`])
})

test('a coffee that cannot be made by the method is not taken', async () => {
  const instant = await ingredient('Instant coffee', 'coffee', { form: 'powder' })
  const ground = await ingredient('Ground coffee', 'coffee', { form: 'grounds' })
  const make = (part: string, method?: string) =>
    recordFirstTrial(cafe.world, reader(), cafe.recipeId, first({ part }, [], method))
  expect(await make(instant)).toMatchObject({ reason: 'coffee-not-for-method' })
  expect(await make(ground, 'instant')).toMatchObject({ reason: 'coffee-not-for-method' })
  expect(await make(ground, 'prepared')).toMatchObject({ reason: 'coffee-not-for-method' })
  expect(await make(instant, 'instant')).toMatchObject({ ok: true })
})

test('a first trial with a milk of no known density asks for it, and takes it', async () => {
  const oat = await ingredient('Oat drink', 'milk')
  const ground = await ingredient('Ground coffee', 'coffee', { form: 'grounds' })
  const make = (more: object) =>
    recordFirstTrial(
      cafe.world,
      reader(),
      cafe.recipeId,
      first({ part: ground }, [{ part: oat, amount: '60', unit: 'ml', ...more }]),
    )
  expect(await make({})).toMatchObject({ reason: 'density-missing', detail: { line: '1' } })
  expect(await make({ density: '1.02', densityFor: 'ingredient:other' })).toMatchObject({
    reason: 'density-missing',
  })
  const id = value(await make({ density: '1.02', densityFor: oat }))
  // by hand: 60 ml · 1.02 = 61.2 g
  expect((await linesOf(id))[1]).toMatchObject({ targetMg: 61_200, role: 'milk' })
})

const file = (line: object) =>
  JSON.stringify({ kind: 'sipwright-trial', version: 1, name: 'From elsewhere', allergenList: 'eu', lines: [line] })

test('a line from a file is what the store knows by its name, whatever the file takes it for', async () => {
  await ingredient('Oat drink', 'milk')
  const line = { name: 'Oat drink', kind: 'coffee', form: 'grounds', role: 'the creamy part', targetGrams: 60 }
  const id = value(await importTrial(cafe.world, cafe.owner, cafe.recipeId, file(line)))
  expect(await linesOf(id)).toMatchObject([{ role: 'milk' }])
  expect(await cafe.db.ingredient.count({ where: { name: 'Oat drink' } })).toBe(1)
})

test('no density that no food has comes in from a file, whatever the unit', async () => {
  const line = { name: 'Lead drink', kind: 'other', form: 'liquid' }
  const of = (typed: object, more: object = {}) =>
    importTrial(cafe.world, cafe.owner, cafe.recipeId, file({ ...line, typed, ...more }))
  expect(await of({ amount: 10, unit: 'ml', density: 2500 })).toMatchObject({
    reason: 'impossible',
    detail: { path: 'lines[0].typed.density', message: expect.stringContaining('between 0.1 and 3') },
  })
  expect(await of({ amount: 10, unit: 'g', density: 2500 })).toMatchObject({ reason: 'impossible' })
  expect(await of({ amount: 10, unit: 'ml', density: 0.05 })).toMatchObject({ reason: 'impossible' })
  expect(await of({ amount: 10, unit: 'g' }, { form: 'powder', density: 2500 })).toMatchObject({
    detail: { path: 'lines[0].density' },
  })
})

test.each([
  ['composition', { composition: { energyKcal: 1e9 } }, 'lines[0].composition.energyKcal'],
  ['tolerance', { toleranceGrams: 1e9 }, 'lines[0].toleranceGrams'],
  ['temperature', { temperature: -1e9 }, 'lines[0].temperature'],
])('a %s that no column holds is refused by its place, and nothing is entered', async (_what, more, path) => {
  const line = { name: 'Endless drink', kind: 'other', form: 'liquid', targetGrams: 10, ...more }
  expect(await importTrial(cafe.world, cafe.owner, cafe.recipeId, file(line))).toMatchObject({
    reason: 'impossible',
    detail: { path },
  })
  expect(await cafe.db.ingredient.count({ where: { name: 'Endless drink' } })).toBe(0)
})
