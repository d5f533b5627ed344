/** One reading of what was in the glass: the trial at its cost level, for every page, paper, file and caution. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { computeBuild } from '@/lib/drink/build'
import { scaleSheet } from '@/lib/drink/scale'
import { readFrozenSheet } from '@/lib/forms/frozen-sheet'
import { readTrialFile } from '@/lib/forms/trial-of-file'
import { branchTrial } from '@/lib/tasks/trial/branch-trial'
import { climbLadder } from '@/lib/tasks/trial/climb-ladder'
import { readComparison } from '@/lib/tasks/trial/compare-trials'
import { exportTrial } from '@/lib/tasks/trial/export-trial'
import { chooseAlternatives, markTasted, nameCostLevel } from '@/lib/tasks/recipe/keep-cost-level'
import { adoptWithoutPanel } from '@/lib/tasks/recipe/keep-recipe'
import { openPanel } from '@/lib/tasks/pour/open-panel'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { readCard } from '@/lib/tasks/trial/read-card'
import { readCostLevels } from '@/lib/tasks/recipe/read-cost-levels'
import { readJoin } from '@/lib/tasks/taste/read-join'
import { readPanel } from '@/lib/tasks/plan/read-panel'
import { readTrial, type TrialSheet } from '@/lib/tasks/trial/read-trial'
import { worldOf } from '@/lib/tasks/world'
import { cafeForTest, type TestCafe } from '@/test/support/cafe'
import { openLanded } from '@/test/support/landed'

let cafe: TestCafe
let plainId: string
let almondId: string
let level: string
let trialId: string
let lineId: string

const money = { currency: 'EUR', currencyDigits: 2, allergenList: 'eu' }
const reader = () => ({ ...cafe.owner, cafe: money })

async function ingredient(name: string, kind: string, allergen: string | null, more: object = {}): Promise<string> {
  const id = cafe.world.id()
  const { cafeId } = cafe.owner
  const createdAt = cafe.world.now()
  await cafe.db.ingredient.create({ data: { id, cafeId, name, kind, createdAt, labelReadAt: createdAt, ...more } })
  if (allergen !== null)
    await cafe.db.ingredientAllergen.create({
      data: { id: cafe.world.id(), cafeId, ingredientId: id, allergen, state: 'contains' },
    })
  return id
}

async function trialOf(...lines: { ingredientId?: string; batchId?: string; role: string }[]): Promise<string> {
  const { db, world, owner, recipeId } = cafe
  const id = world.id()
  const number = 1 + (await db.trial.count({ where: { recipeId } }))
  const create = lines.map((line, at) => ({
    id: world.id(),
    cafeId: owner.cafeId,
    position: at + 1,
    targetMg: 100_000,
    typed: '100',
    unit: 'g',
    ...line,
  }))
  await db.trial.create({
    data: {
      id,
      cafeId: owner.cafeId,
      recipeId,
      number,
      name: 'Made cheap',
      method: 'no-coffee',
      createdAt: world.now(),
      lines: { create },
    },
  })
  return id
}

const value = <Value>(made: { ok: true; value: Value } | { ok: false; reason: string }): Value => {
  if (!made.ok) throw new Error(made.reason)
  return made.value
}

/** A line of plain milk (5 g of sugars in 100 g), where economy uses an almond drink (9 g, tree nuts). */
beforeEach(async () => {
  cafe = await cafeForTest()
  const priced = (priceMinor: number) => ({
    prices: {
      create: {
        id: cafe.world.id(),
        cafeId: cafe.owner.cafeId,
        packMg: 1_000_000,
        packTyped: '1',
        packUnit: 'kg',
        priceMinor,
        since: new Date(0),
        day: '1970-01-01',
        createdAt: new Date(0),
      },
    },
  })
  plainId = await ingredient('Plain milk', 'milk', null, { sugarsMg: 5000, ...priced(100) })
  almondId = await ingredient('Almond drink', 'milk', 'tree-nuts', { sugarsMg: 9000, ...priced(300) })
  trialId = await trialOf({ ingredientId: plainId, role: 'milk' })
  const line = await cafe.db.trialLine.findFirstOrThrow({ where: { trialId } })
  lineId = line.id
  level = value(await nameCostLevel(cafe.world, cafe.owner, cafe.recipeId, 'economy'))
  await use(`ingredient:${almondId}`)
})
afterEach(() => cafe.close())

const use = (part: string) => chooseAlternatives(cafe.world, cafe.owner, trialId, level, [{ id: lineId, part }], null)
const mark = () => markTasted(cafe.world, cafe.owner, trialId, level)
const adopt = () => adoptWithoutPanel(cafe.world, cafe.owner, cafe.recipeId, { trialId, reason: 'It is what we pour.' })

async function page(id = trialId): Promise<TrialSheet> {
  const sheet = await readTrial(cafe.world, reader(), id)
  if (!sheet) throw new Error('the trial is there')
  return sheet
}

async function plan(...cups: string[]): Promise<string> {
  const typed = cafe.plan({ cups, aspects: [] })
  return value(await planPanel(cafe.world, cafe.owner, cafe.recipeId, typed))
}

const nuts = (rows: readonly { id: string; state: string }[]) => rows.find(({ id }) => id === 'tree-nuts')?.state

test('page, card, scale, file and cost are of what the level used, and name it', async () => {
  await mark()
  const sheet = await page()
  expect(sheet.build.level).toBe('economy')
  expect(sheet.build.lines.map(({ name, insteadOf }) => [name, insteadOf])).toEqual([['Almond drink', 'Plain milk']])
  expect(nuts(sheet.figures.allergens.rows)).toBe('contains')
  // by hand: 100 g at 9 g in 100 g, and 100 g at 3.00 for 1000 g
  expect(sheet.figures.sugars).toMatchObject({ value: 9 })
  expect(sheet.figures.cost.ingredients.known && sheet.figures.cost.ingredients.value).toBeCloseTo(0.3, 12)
  expect(scaleSheet(sheet.build, 1).steps.map(({ name }) => name)).toEqual(['Almond drink'])
  const card = await readCard(cafe.world, reader(), trialId)
  expect(card?.scale.steps.map(({ name }) => name)).toEqual(['Almond drink'])
  expect(nuts(card?.sheet.figures.allergens.rows ?? [])).toBe('contains')

  const file = await exportTrial(cafe.world, reader(), trialId)
  expect(file?.content).toContain('Almond drink')
  const read = value(readTrialFile(file?.content ?? ''))
  expect(read.level).toBe('economy')
  expect(nuts(computeBuild(read).allergens.rows)).toBe('contains')
  expect(computeBuild(read).sugars).toMatchObject({ value: 9 })
})

test('the sheet it froze with is of what the level used, and stays when the price of either changes', async () => {
  await mark()
  value(await adopt())
  const { frozenSheet } = await cafe.db.trial.findUniqueOrThrow({ where: { id: trialId } })
  expect(value(readFrozenSheet(frozenSheet ?? '')).build.lines.map(({ name }) => name)).toEqual(['Almond drink'])
  const sheet = await page()
  expect(sheet.figuresOf).toBe('its day')
  expect(sheet.build.beside).toEqual([])
  expect(nuts(sheet.figures.allergens.rows)).toBe('contains')
  // An allergen that is found on the swapped ingredient later must show as well.
  await cafe.db.ingredientAllergen.create({
    data: { id: 'later', cafeId: cafe.owner.cafeId, ingredientId: almondId, allergen: 'lupin', state: 'contains' },
  })
  const after = await page()
  expect(after.figures.allergens.rows.find(({ id }) => id === 'lupin')).toMatchObject({ state: 'contains' })
  // What a level used on a trial that was poured at it is no longer chosen anew.
  expect(await use('')).toMatchObject({ reason: 'poured' })
  const premium = value(await nameCostLevel(cafe.world, cafe.owner, cafe.recipeId, 'premium'))
  expect(await markTasted(cafe.world, cafe.owner, trialId, premium)).toMatchObject({ reason: 'poured' })
})

test('a batch that a level uses is opened to its ingredients, with all that their labels say', async () => {
  const { db, world, owner } = cafe
  const sesame = await ingredient('Sesame paste', 'other', 'sesame')
  const at = { cafeId: owner.cafeId, createdAt: world.now() }
  await db.preparation.create({ data: { ...at, id: 'p', name: 'Halva syrup', kind: 'other' } })
  await db.preparationBatch.create({
    data: {
      ...at,
      id: 'b',
      preparationId: 'p',
      number: 1,
      outputMg: 100_000,
      inputs: {
        create: {
          id: 'i',
          cafeId: owner.cafeId,
          position: 1,
          ingredientId: sesame,
          amountMg: 100_000,
          typed: '100',
          unit: 'g',
        },
      },
    },
  })
  await use('batch:b')
  await mark()
  const sheet = await page()
  expect(sheet.figures.allergens.rows.find(({ id }) => id === 'sesame')).toMatchObject({
    state: 'contains',
    from: ['Sesame paste'],
  })
  const panelId = await plan(trialId, cafe.trialIds[2] ?? '')
  expect((await readPanel(world, owner, panelId))?.cautions.contains).toEqual(['Sesame'])
  value(await openPanel(world, owner, panelId))
  expect(await db.preparationBatch.findUniqueOrThrow({ where: { id: 'b' } })).toMatchObject({
    frozenAt: expect.any(Date),
  })
})

test('tasters are told what the level used, and its unread label keeps the panel shut', async () => {
  await mark()
  const panelId = await plan(trialId, cafe.trialIds[2] ?? '')
  const { joinToken } = await cafe.db.panel.findUniqueOrThrow({ where: { id: panelId } })
  const told = async () => value(await readJoin(cafe.world, { kind: 'join', token: joinToken }, null)).cautions
  expect((await told()).contains).toEqual(['Tree nuts'])
  expect((await readPanel(cafe.world, cafe.owner, panelId))?.cautions).toEqual(await told())

  await cafe.db.ingredient.update({ where: { id: almondId }, data: { labelReadAt: null } })
  const cups = (await readPanel(cafe.world, cafe.owner, panelId))?.cups
  expect(cups?.flatMap(({ unread }) => unread)).toEqual([{ id: almondId, name: 'Almond drink' }])
  expect(await openPanel(cafe.world, cafe.owner, panelId)).toMatchObject({
    reason: 'labels-unread',
    detail: { names: 'Almond drink' },
  })
  expect((await page()).figures.allergens.unread).toEqual(['Almond drink'])
  await cafe.db.ingredient.update({ where: { id: almondId }, data: { labelReadAt: new Date() } })
  // What the sheet names and the level did not use was not in the glass.
  await cafe.db.ingredient.update({ where: { id: plainId }, data: { labelReadAt: null } })
  expect(await openPanel(cafe.world, cafe.owner, panelId)).toMatchObject({ ok: true })
  expect((await told()).contains).toEqual(['Tree nuts'])
})

test('while no level is said, what any would have used counts for allergens, on the page as for tasters', async () => {
  const sheet = await page()
  expect(sheet.build.lines.map(({ name }) => name)).toEqual(['Plain milk'])
  expect(sheet.figures.sugars).toMatchObject({ value: 5 })
  expect(nuts(sheet.figures.allergens.rows)).toBe('contains')
  expect(sheet.figures.cautions.join(' ')).toContain(
    'Almond drink may have been used in place of Plain milk at the cost level “economy”',
  )
  const panelId = await plan(trialId, cafe.trialIds[2] ?? '')
  expect((await readPanel(cafe.world, cafe.owner, panelId))?.cautions.contains).toEqual(['Tree nuts'])
})

test('a sheet frozen before its level was said stays byte for byte; page, card and file say what was used', async () => {
  value(await adopt())
  const before = await cafe.db.trial.findUniqueOrThrow({ where: { id: trialId } })
  await cafe.db.ingredientAllergen.create({
    data: { id: 'm', cafeId: cafe.owner.cafeId, ingredientId: plainId, allergen: 'milk', state: 'contains' },
  })
  value(await mark())
  const sheet = await page()
  expect(sheet.trial.frozenSheet).toBe(before.frozenSheet)
  expect(sheet.figuresOf).toBe('its day')
  expect(sheet.build.level).toBe('economy')
  expect(sheet.build.lines.map(({ name }) => name)).toEqual(['Plain milk'])
  expect(sheet.figures.sugars).toMatchObject({ value: 5 })
  const said = 'Almond drink was used in place of Plain milk at the cost level “economy”'
  expect(sheet.figures.cautions.join(' ')).toContain(said)
  const card = await readCard(cafe.world, reader(), trialId)
  expect(card?.sheet.figures.cautions.join(' ')).toContain(said)
  const file = computeBuild(value(readTrialFile((await exportTrial(cafe.world, reader(), trialId))?.content ?? '')))
  expect(file.cautions.join(' ')).toContain(said)
  for (const { rows } of [sheet.figures.allergens, file.allergens])
    expect(rows.filter(({ state }) => state === 'contains').map(({ name }) => name)).toEqual(['Milk', 'Tree nuts'])
  const panelId = await plan(trialId, cafe.trialIds[2] ?? '')
  expect((await readPanel(cafe.world, cafe.owner, panelId))?.cautions.contains).toEqual(['Milk', 'Tree nuts'])
})

test('parent and child are compared as they were made', async () => {
  const child = value(await branchTrial(cafe.world, cafe.owner, trialId, 'Child'))
  await mark()
  const compared = await readComparison(cafe.world, reader(), trialId, child)
  expect(compared?.sentence).toContain('Plain milk')
  expect(compared?.figures.find(({ what }) => what === 'sugars')).toMatchObject({ before: 9, after: 5 })
  expect((await page(child)).parent?.changes.map(({ after }) => after)).toEqual(['100 g of Plain milk'])
})

test('a ladder keeps what its level uses on the lines that stay, and varies what it is asked to vary', async () => {
  const sugarId = await ingredient('Beet sugar', 'sweetener', null, { sugarsMg: 100_000, form: 'powder' })
  const syrupId = await ingredient('Thin syrup', 'sweetener', null, { sugarsMg: 50_000 })
  const waterId = await ingredient('Spring water', 'water', null, { sugarsMg: 0 })
  const soyId = await ingredient('Soy drink', 'milk', 'soybeans', { sugarsMg: 3000 })
  trialId = await trialOf(
    { ingredientId: sugarId, role: 'sweetener' },
    { ingredientId: waterId, role: 'water' },
    { ingredientId: plainId, role: 'milk' },
  )
  const milk = await cafe.db.trialLine.findFirstOrThrow({ where: { trialId, ingredientId: plainId } })
  lineId = milk.id
  await use(`ingredient:${almondId}`)
  await mark()
  const namesOf = async (id: string) => (await page(id)).build.lines.map(({ name }) => name)

  const other = value(
    await climbLadder(cafe.world, reader(), trialId, { vary: 'part', line: '3', parts: [`ingredient:${soyId}`] }),
  )
  expect(await namesOf(other[0] ?? '')).toEqual(['Beet sugar', 'Spring water', 'Soy drink'])

  // 100 g of sugar are 200 g of thin syrup: all 100 g of water go, and the milk moves one place up.
  const swapped = value(
    await climbLadder(cafe.world, reader(), trialId, { vary: 'swap', line: '1', parts: [`ingredient:${syrupId}`] }),
  )
  expect(await namesOf(swapped[0] ?? '')).toEqual(['Thin syrup', 'Almond drink'])
})

test('levels are costed from what the sheet names, whichever level the trial was made at', async () => {
  await nameCostLevel(cafe.world, cafe.owner, cafe.recipeId, 'standard')
  await mark()
  const levels = await readCostLevels(cafe.world, reader(), cafe.recipeId, trialId)
  expect(levels?.levels.map(({ lines }) => lines?.map(({ name }) => name))).toEqual([['Almond drink'], ['Plain milk']])
})

test('a mark nobody knows counts as not stated, never as silence', async () => {
  await cafe.db.ingredientAllergen.updateMany({ where: { ingredientId: almondId }, data: { state: 'probably-fine' } })
  await mark()
  expect(nuts((await page()).figures.allergens.rows)).toBe('not-stated')
})

test('a trial of the landed version, frozen under another name than was used, says so and keeps its sheet to the byte', async () => {
  const landed = await openLanded('landed-0001-start.db')
  const world = worldOf(landed.db)
  const trial = await landed.db.trial.findFirstOrThrow({ where: { name: 'Milk X, poured with the cheaper one' } })
  const ferry = { userId: 'any', cafeId: trial.cafeId, cafe: money }
  const sheet = await readTrial(world, ferry, trial.id)
  expect(sheet?.figuresOf).toBe('its day, worked out today')
  expect(sheet?.build.level).toBe('economy')
  expect(sheet?.build.lines.map(({ name }) => name)).toContain('Milk X')
  expect(nuts(sheet?.figures.allergens.rows ?? [])).toBe('contains')
  const said = 'Almond drink was used in place of Milk X at the cost level “economy”'
  expect(sheet?.figures.cautions.join(' ')).toContain(said)
  const card = await readCard(world, ferry, trial.id)
  expect(nuts(card?.sheet.figures.allergens.rows ?? [])).toBe('contains')
  const file = computeBuild(value(readTrialFile((await exportTrial(world, ferry, trial.id))?.content ?? '')))
  expect(nuts(file.allergens.rows)).toBe('contains')
  expect(file.cautions.join(' ')).toContain(said)

  const draft = await landed.db.trial.findFirstOrThrow({ where: { name: 'Draft at the cheaper level' } })
  const made = await readTrial(world, ferry, draft.id)
  expect(made?.build.lines.map(({ name, insteadOf }) => [name, insteadOf])).toContainEqual(['Almond drink', 'Milk X'])
  expect(made?.figures.cautions.join(' ')).not.toContain('was used in place of')

  const cup = await landed.db.cup.findFirstOrThrow({ where: { trialId: trial.id } })
  expect((await readPanel(world, ferry, cup.panelId))?.cautions.contains).toContain('Tree nuts')
  const after = await landed.db.trial.findUniqueOrThrow({ where: { id: trial.id } })
  expect(after.frozenSheet).toBe(trial.frozenSheet)
  await landed.close()
})
