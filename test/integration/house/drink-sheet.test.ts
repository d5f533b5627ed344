/** The drink sheet's acts on the invented demo café, which is laid out by the house's own acts. */
import { afterAll, beforeAll, expect, test } from 'vitest'
import { computeBuild } from '@/lib/drink/build'
import { readTrialFile } from '@/lib/forms/trial-of-file'
import { TrialForm } from '@/lib/forms/trial-form'
import { branchTrial } from '@/lib/tasks/trial/branch-trial'
import { changeTrial } from '@/lib/tasks/trial/record-trial'
import { climbLadder } from '@/lib/tasks/trial/climb-ladder'
import { exportTrial } from '@/lib/tasks/trial/export-trial'
import { foundDemoHouse } from '@/lib/tasks/house/found-demo-house'
import { importTrial } from '@/lib/tasks/trial/import-trial'
import { chooseAlternatives, nameCostLevel } from '@/lib/tasks/recipe/keep-cost-level'
import { keepWeighing } from '@/lib/tasks/trial/keep-weighing'
import { readCard } from '@/lib/tasks/trial/read-card'
import { readCostLevels } from '@/lib/tasks/recipe/read-cost-levels'
import { readTrial } from '@/lib/tasks/trial/read-trial'
import { worldOf, type World } from '@/lib/tasks/world'
import { freshDatabase, type FreshDatabase } from '@/test/support/fresh-database'

let fresh: FreshDatabase
let world: World
let reader: { userId: string; cafeId: string; cafe: { currency: string; currencyDigits: number; allergenList: string } }
let recipeId: string
let house: string
let sweetest: string

beforeAll(async () => {
  fresh = await freshDatabase()
  world = worldOf(fresh.db)
  await foundDemoHouse(world)
  const member = await fresh.db.membership.findFirstOrThrow()
  reader = {
    userId: member.userId,
    cafeId: member.cafeId,
    cafe: { currency: 'EUR', currencyDigits: 2, allergenList: 'eu' },
  }
  const trials = await fresh.db.trial.findMany({
    where: { recipe: { name: 'Iced date-cardamom coffee' } },
    orderBy: { number: 'asc' },
  })
  recipeId = trials[0]?.recipeId ?? ''
  house = trials[1]?.id ?? ''
  sweetest = trials[2]?.id ?? ''
})
afterAll(() => fresh.close())

test('a trial file holds the figures of the page, to the last digit', async () => {
  const page = await readTrial(world, reader, house)
  const file = await exportTrial(world, reader, house)
  const read = readTrialFile(file?.content ?? '')
  expect(read.ok && computeBuild(read.value).cost).toEqual(page?.figures.cost)
  expect(read.ok && computeBuild(read.value).sugars).toEqual(page?.figures.sugars)
  expect(read.ok && computeBuild(read.value).caffeine).toEqual(page?.figures.caffeine)
})

test('the glass of a trial is drawn from its figures, the frozen one from those of its day', async () => {
  const sheet = await readTrial(world, reader, house)
  expect(sheet?.figuresOf).toBe('its day')
  const ml = sheet?.glass.layers.map(({ line, kind, from, to }) => [line, kind, Math.round(to - from)])
  // 64 g of evaporated milk at 1.065 g/ml (USDA household weights) are 60 ml; 180 g of ice at 0.9167 g/ml are 196 ml
  expect(ml?.slice(1)).toEqual([
    [2, 'coffee', 119],
    [3, 'milk', 60],
  ])
  expect(sheet?.glass.ice && Math.round(sheet.glass.ice.to - sheet.glass.ice.from)).toBe(196)
  expect(sheet?.glass.unknown).toEqual([])
  expect(sheet?.glass.brim).toBe(sheet?.build.vessel?.brimMl)
})

test('a frozen trial keeps the figures of its day when a price changes, and says what it costs now', async () => {
  const before = await readTrial(world, reader, house)
  expect(before?.trial.frozenSheet).not.toBeNull()
  expect(before?.costToday).toBeNull()
  const milk = await fresh.db.ingredient.findFirstOrThrow({ where: { name: 'Evaporated milk, whole' } })
  const at = new Date(Date.now() + 1000)
  const { day } = await fresh.db.ingredientPrice.findFirstOrThrow({ where: { ingredientId: milk.id } })
  await fresh.db.ingredientPrice.create({
    data: {
      id: 'dearer',
      cafeId: reader.cafeId,
      ingredientId: milk.id,
      packMg: 378_000,
      packTyped: '378',
      packUnit: 'g',
      priceMinor: 378,
      since: at,
      day,
      createdAt: at,
    },
  })
  const after = await readTrial(world, reader, house)
  expect(after?.figures.cost.perGlass).toEqual(before?.figures.cost.perGlass)
  const [was, now] = [before?.figures.cost.perGlass, after?.costToday]
  if (!was?.known || !now?.known) throw new Error('both costs are known')
  // by hand: 64 g of milk, 3.78 − 1.60 dearer for 378 g, and 3 % waste on it
  expect(now.value - was.value).toBeCloseTo(((64 * (3.78 - 1.6)) / 378) * 1.03, 9)
})

test('an allergen found later shows on a frozen trial, its card and its file, whatever its old sheet says', async () => {
  const milk = await fresh.db.ingredient.findFirstOrThrow({ where: { name: 'Evaporated milk, whole' } })
  const paste = await fresh.db.ingredient.findFirstOrThrow({ where: { name: 'Date paste (demo)' } })
  const mark = { cafeId: reader.cafeId, state: 'contains' }
  await fresh.db.ingredientAllergen.create({
    data: { ...mark, id: 'later', ingredientId: milk.id, allergen: 'mustard' },
  })
  // through the syrup's batch as well
  await fresh.db.ingredientAllergen.create({
    data: { ...mark, id: 'deeper', ingredientId: paste.id, allergen: 'lupin' },
  })
  const stateOf = (rows: readonly { id: string; state: string }[] | undefined, id: string) =>
    rows?.find((row) => row.id === id)?.state
  const sheet = await readTrial(world, reader, house)
  const card = await readCard(world, reader, house)
  const read = readTrialFile((await exportTrial(world, reader, house))?.content ?? '')
  for (const allergen of ['mustard', 'lupin']) {
    expect(stateOf(sheet?.figures.allergens.rows, allergen)).toBe('contains')
    expect(stateOf(card?.sheet.figures.allergens.rows, allergen)).toBe('contains')
    expect(read.ok && stateOf(computeBuild(read.value).allergens.rows, allergen)).toBe('contains')
  }
  await fresh.db.ingredient.update({ where: { id: milk.id }, data: { labelReadAt: null } })
  const unread = await readTrial(world, reader, house)
  expect(unread?.figures.allergens.unread).toContain('Evaporated milk, whole')
  expect(unread?.figuresOf).toBe('its day')
  await fresh.db.ingredient.update({ where: { id: milk.id }, data: { labelReadAt: new Date() } })
  await fresh.db.ingredientAllergen.deleteMany({ where: { id: { in: ['later', 'deeper'] } } })
})

test('a kept sheet that cannot be read is said to be lost, and today’s figures stand in', async () => {
  const { frozenSheet } = await fresh.db.trial.findUniqueOrThrow({ where: { id: house } })
  await fresh.db.trial.update({ where: { id: house }, data: { frozenSheet: '{' } })
  const sheet = await readTrial(world, reader, house)
  expect(sheet?.figuresOf).toBe('today, its sheet is lost')
  expect(sheet?.figures.totalMass.known).toBe(true)
  await fresh.db.trial.update({ where: { id: house }, data: { frozenSheet } })
})

test('a frozen trial keeps its figures as they were worked out; what a mended formula gives today stands beside', async () => {
  const { frozenSheet } = await fresh.db.trial.findUniqueOrThrow({ where: { id: house } })
  const asFrozen = await readTrial(world, reader, house)
  expect(asFrozen?.mended).toEqual([])
  // As a version would have left it whose formula gave 1 g of sugars too few.
  const kept = JSON.parse(frozenSheet ?? '') as { figures: { sugars: { value: number } } }
  kept.figures.sugars.value -= 1
  await fresh.db.trial.update({ where: { id: house }, data: { frozenSheet: JSON.stringify(kept) } })
  const sheet = await readTrial(world, reader, house)
  expect(sheet?.figuresOf).toBe('its day')
  expect(sheet?.figures.sugars).toMatchObject({ value: kept.figures.sugars.value })
  expect(sheet?.mended).toMatchObject([
    { what: 'sugars', before: kept.figures.sugars.value, after: kept.figures.sugars.value + 1 },
  ])
  await fresh.db.trial.update({ where: { id: house }, data: { frozenSheet } })
})

test('saving a draft keeps what its cost levels use instead, line by line, and in the order the lines were moved to', async () => {
  const branched = await branchTrial(world, reader, house, 'Moved')
  const level = await nameCostLevel(world, reader, recipeId, 'premium')
  if (!branched.ok || !level.ok) throw new Error('both are made')
  const draft = await readTrial(world, reader, branched.value)
  const milk = draft?.trial.lines.find((line) => line.role === 'milk')
  const whole = await fresh.db.ingredient.findFirstOrThrow({ where: { name: 'Whole milk, 3.25 % fat' } })
  await chooseAlternatives(
    world,
    reader,
    branched.value,
    level.value,
    [{ id: milk?.id ?? '', part: `ingredient:${whole.id}` }],
    null,
  )
  const lines = (draft?.trial.lines ?? []).map((line, at, all) => ({
    role: line.role,
    part: line.ingredientId ? `ingredient:${line.ingredientId}` : `batch:${line.batchId}`,
    amount: line.typed,
    unit: line.unit,
    place: String(all.length - at),
  }))
  const sent = TrialForm.parse({ name: 'Moved', method: 'plunger-pot', ratioKind: 'water-in', ratio: '10', lines })
  expect(await changeTrial(world, reader, branched.value, sent, null)).toMatchObject({ ok: true })
  const after = await readTrial(world, reader, branched.value)
  expect(after?.trial.lines.map((line) => line.role)).toEqual(draft?.trial.lines.map((line) => line.role).toReversed())
  const kept = await fresh.db.lineAlternative.findMany({
    where: { line: { trialId: branched.value } },
    include: { line: true },
  })
  expect(kept.map((row) => [row.ingredientId, row.line.role])).toEqual([[whole.id, 'milk']])
})

test('a ladder of doses changes one line and holds all else; a rung that is not there is refused', async () => {
  const sheet = await readTrial(world, reader, house)
  const syrup = sheet?.build.lines[0]
  const climbed = await climbLadder(world, reader, house, { vary: 'dose', line: syrup?.key ?? '', levels: [20, 40.5] })
  if (!climbed.ok) throw new Error(climbed.reason)
  for (const [place, id] of climbed.value.entries()) {
    const rung = await readTrial(world, reader, id)
    // not the name of a trial whose dose it has not
    expect(rung?.trial.name).toBe(`${syrup?.name} ${[20, 40.5][place]} g, else as trial ${sheet?.trial.number}`)
    expect(rung?.parent?.changes).toHaveLength(1)
    expect(rung?.parent?.warning).toBeNull()
    expect(rung?.build.lines[0]?.targetGrams).toBe([20, 40.5][place])
  }
  expect(await climbLadder(world, reader, house, { vary: 'dose', line: '99', levels: [20] })).toMatchObject({
    reason: 'line-gone',
  })
  expect(await climbLadder(world, reader, house, { vary: 'ratio', levels: [2], hold: 'dose' })).toMatchObject({
    reason: 'ratio-too-low',
  })
})

test('another sweetener keeps the sugar, and water keeps the mass', async () => {
  const before = await readTrial(world, reader, sweetest)
  const sugar = await fresh.db.ingredient.findFirstOrThrow({ where: { name: 'White sugar' } })
  const line = before?.build.lines[0]?.key ?? ''
  const swapped = await climbLadder(world, reader, sweetest, { vary: 'swap', line, parts: [`ingredient:${sugar.id}`] })
  if (!swapped.ok) throw new Error(swapped.reason)
  const after = await readTrial(world, reader, swapped.value[0] ?? '')
  const [was, now] = [before?.figures, after?.figures]
  if (!was?.sugars.known || !now?.sugars.known || !was.totalMass.known || !now.totalMass.known)
    throw new Error('all are known')
  // amounts are kept to a milligram
  expect(Math.abs(now.sugars.value - was.sugars.value)).toBeLessThan(0.005)
  expect(Math.abs(now.totalMass.value - was.totalMass.value)).toBeLessThan(0.005)
})

test('an imported trial stands with unread labels, and a broken file is refused by its place', async () => {
  const file = await exportTrial(world, reader, house)
  const renamed = (file?.content ?? '').replaceAll('Evaporated milk, whole', 'Milk of elsewhere')
  const brought = await importTrial(world, reader, recipeId, renamed)
  if (!brought.ok) throw new Error(brought.reason)
  const milk = await fresh.db.ingredient.findFirstOrThrow({
    where: { name: 'Milk of elsewhere' },
    include: { allergens: true },
  })
  expect(milk.labelReadAt).toBeNull()
  expect(milk.allergens.map(({ allergen, state }) => [allergen, state])).toEqual([['milk', 'contains']])
  const sheet = await readTrial(world, reader, brought.value)
  const own = await readTrial(world, reader, house)
  expect(sheet?.figures.sugars).toMatchObject({ value: own?.figures.sugars.known ? own.figures.sugars.value : NaN })
  const before = await fresh.db.trial.count()
  expect(
    await importTrial(world, reader, recipeId, renamed.replace('"targetGrams": 64', '"targetGrams": -64')),
  ).toMatchObject({ ok: false })
  expect(await importTrial(world, reader, recipeId, 'not json')).toMatchObject({ reason: 'not-json' })
  expect(await fresh.db.trial.count()).toBe(before)
})

test('what the scale showed is kept once, however often it is sent', async () => {
  const sent = { key: 'weighing-1', glasses: 2, weights: [{ position: 1, grams: 60.4 }] }
  await Promise.all([keepWeighing(world, reader, house, sent), keepWeighing(world, reader, house, sent)])
  expect(await keepWeighing(world, reader, house, sent)).toMatchObject({ ok: true })
  expect(await fresh.db.weighing.count()).toBe(1)
})

test('the card carries its version, its panel and a running weight that ends at the mass of the build', async () => {
  const card = await readCard(world, reader, house)
  expect(card?.adopted).toMatchObject({ version: 2, panel: { title: 'How sweet?' } })
  // 30 g syrup + 15 g at 1:10 with 2.1 g/g kept = 118.5 g + 64 g milk + 180 g ice, added by hand
  expect(card?.scale.steps.map((step) => step.running)).toEqual([30, 148.5, 212.5, 392.5])
  expect(card?.scale.finalGrams).toBeCloseTo(392.5, 9)
})

test('levels are named once, and one nobody tasted is only a price', async () => {
  expect(await nameCostLevel(world, reader, recipeId, 'economy')).toMatchObject({ ok: true })
  expect(await nameCostLevel(world, reader, recipeId, 'economy')).toMatchObject({ reason: 'name-taken' })
  const sheet = await readCostLevels(world, reader, recipeId, null)
  expect(sheet?.trial?.id).toBe(house)
  expect(sheet?.levels[0]?.warning).toContain('was not tasted')
})
