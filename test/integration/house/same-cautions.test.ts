/** What must be said of a drink is said in the same words wherever somebody meets it: sheet, card, size, door, paper. */
import { createElement, type ReactElement } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { HouseCard } from '@/app/(house)/trials/[trialId]/card/house-card'
import { SizeParts } from '@/app/(house)/trials/[trialId]/sizes/size-parts'
import { cautionsPart } from '@/app/join/cautions-part'
import { html } from '@/app/taste/html'
import { BuildFiguresView } from '@/app/ui/build-figures'
import { Cautions } from '@/app/ui/cautions'
import { IngredientForm } from '@/lib/forms/ingredient-form'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { readPanel } from '@/lib/tasks/plan/read-panel'
import { readJoin } from '@/lib/tasks/taste/read-join'
import { readCard } from '@/lib/tasks/trial/read-card'
import { readSizes } from '@/lib/tasks/trial/read-sizes'
import { exportTrial } from '@/lib/tasks/trial/export-trial'
import { importTrial } from '@/lib/tasks/trial/import-trial'
import { correctIngredient } from '@/lib/tasks/store/keep-ingredient'
import { readTrial } from '@/lib/tasks/trial/read-trial'
import { cafeForTest, type TestCafe } from '@/test/support/cafe'

let cafe: TestCafe
const usual = { ice: null, coffee: null }

beforeEach(async () => {
  cafe = await cafeForTest()
  const { db } = cafe
  await db.ingredient.updateMany({ data: { microdensity: 1_000_000, sugarsMg: 0, freeSugarsMg: 0 } })
  await db.ingredient.updateMany({ where: { kind: 'sweetener' }, data: { sugarsMg: 90_000, freeSugarsMg: 90_000 } })
})

afterEach(() => cafe.close())

const told = (page: string) =>
  page
    .replace(/<[^>]*>/g, ' ')
    .replace(/&#(?:x27|39);/g, '’')
    .replace(/\s+/g, ' ')
const drawn = (element: ReactElement) => told(renderToStaticMarkup(element))
const there = <T>(value: T | null | undefined): T => {
  if (value === null || value === undefined) throw new Error('nothing there')
  return value
}

async function everyPlace(trialId: string): Promise<{ readonly sheet: readonly string[]; readonly pages: object }> {
  const { world, owner } = cafe
  const sheet = there(await readTrial(world, owner, trialId))
  const card = there(await readCard(world, owner, trialId))
  const size = there((await readSizes(world, owner, trialId, usual))?.sizes.find(({ made }) => made.known))
  const cups = [trialId, ...cafe.trialIds.filter((id) => id !== trialId).slice(0, 1)]
  const planned = await planPanel(world, owner, cafe.recipeId, cafe.plan({ cups, sampleMl: 60 }))
  if (!planned.ok) throw new Error(planned.reason)
  const { joinToken } = await cafe.db.panel.findUniqueOrThrow({ where: { id: planned.value } })
  const door = await readJoin(world, { kind: 'join', token: joinToken }, null)
  if (!door.ok) throw new Error(door.reason)
  const panel = there(await readPanel(world, owner, planned.value))
  return {
    sheet: sheet.figures.cautions,
    pages: {
      sheet: drawn(
        createElement(BuildFiguresView, { figures: sheet.figures, currency: 'EUR', vessel: null, iced: false }),
      ),
      card: drawn(
        createElement(HouseCard, {
          card,
          size: 'a4',
          link: null,
          printed: 'today',
          cafe: { name: 'Kiosk', timeZone: 'UTC' },
        }),
      ),
      size: drawn(createElement(SizeParts, { size, currency: 'EUR' })),
      door: told(cautionsPart(door.value.cautions, html``).text),
      paper: drawn(createElement(Cautions, { said: panel.cautions.said.map(({ words }) => words) })),
    },
  }
}

/** The words of each place that are not there. */
async function missing(trialId: string): Promise<readonly string[]> {
  const { sheet, pages } = await everyPlace(trialId)
  return Object.entries(pages).flatMap(([place, page]) =>
    sheet.filter((words) => !String(page).includes(words)).map((words) => `${place}: ${words}`),
  )
}

test('of a drink of which little is known every place says the same, and clears nothing', async () => {
  const [trialId = ''] = cafe.trialIds
  const { sheet } = await everyPlace(trialId)
  // the beans state no caffeine, and nothing says what the labels leave out
  expect(sheet.join(' ')).toContain('Caffeine is not known')
  expect(await missing(trialId)).toEqual([])
})

test('the upper end counts: a glass that may pass one dose says so at the door as well, however little is poured', async () => {
  const [trialId = ''] = cafe.trialIds
  // 100 g that hold 150 to 250 mg per 100 g: the middle is 200 mg, the upper end above what is advised at once
  await cafe.db.ingredient.updateMany({
    where: { kind: { not: 'coffee' } },
    data: { caffeineLowMg100g: 0, caffeineHighMg100g: 0 },
  })
  await cafe.db.ingredient.updateMany({
    where: { kind: 'coffee' },
    data: { form: 'liquid', caffeineLowMg100g: 1500, caffeineHighMg100g: 2500 },
  })
  await cafe.db.trialLine.updateMany({ data: { targetMg: 100_000 } })
  const { sheet } = await everyPlace(trialId)
  expect(sheet.join(' ')).toContain('May hold over 200 mg caffeine')
  expect(sheet.join(' ')).not.toContain('Caffeine is not known')
  expect(await missing(trialId)).toEqual([])
})

test('a label that nobody read is said by name in the house, and without a name to whoever tastes blind', async () => {
  const trialId = there(cafe.trialIds[3])
  await cafe.db.preparationBatch.updateMany({ data: { outputMg: 100_000, microdensity: 1_000_000 } })
  const { sheet, pages } = await everyPlace(trialId)
  expect(sheet).toContain('Labels not read: Quillberry paste. No allergen may be called absent until they are.')
  expect(pages).toMatchObject({
    card: expect.stringContaining('Labels not read: Quillberry paste.'),
    door: expect.stringContaining('Labels not read: something in the cups. No allergen may be called absent until'),
  })
  expect(JSON.stringify(pages).match(/Not stated: all others of the list\./g)).toHaveLength(5)
  const named = (start: string) => sheet.find((words) => words.startsWith(start))
  expect(await missing(trialId)).toEqual(
    ['door', 'paper'].flatMap((place) =>
      ['Labels not read', 'Alcohol is not stated: Quillberry paste'].map((start) => `${place}: ${named(start)}`),
    ),
  )
})

test('alcohol is named with its strength in the house, and without a name to whoever tastes blind', async () => {
  const [trialId = ''] = cafe.trialIds
  await cafe.db.ingredient.updateMany({ where: { name: 'Zephyrine milk' }, data: { alcoholBp: 1700 } })
  const { sheet, pages } = await everyPlace(trialId)
  expect(sheet.join(' ')).toContain('Brings alcohol: Zephyrine milk (17 % by volume). Not for children;')
  expect(pages).toMatchObject({ door: expect.stringContaining('Brings alcohol: something in the cups. Not for') })
  expect(await missing(trialId)).toEqual(
    ['door', 'paper'].map((place) => `${place}: ${sheet.find((words) => words.startsWith('Brings alcohol'))}`),
  )
})

test('what a label says of alcohol is kept, goes out with the trial’s file and comes in with it elsewhere', async () => {
  const [trialId = ''] = cafe.trialIds
  const { id } = await cafe.db.ingredient.findFirstOrThrow({ where: { name: 'Zephyrine milk' } })
  const sent = IngredientForm.parse({ name: 'Zephyrine milk', kind: 'milk', form: 'liquid', alcohol: '17,5' })
  expect(await correctIngredient(cafe.world, cafe.owner, id, sent, null)).toMatchObject({ ok: true })
  expect(await cafe.db.ingredient.findUnique({ where: { id } })).toMatchObject({ alcoholBp: 1750 })
  const { content } = there(await exportTrial(cafe.world, cafe.owner, trialId))
  const recipe = { id: 'over-there', cafeId: cafe.stranger.cafeId, name: 'Over there', createdAt: cafe.world.now() }
  await cafe.db.recipe.create({ data: recipe })
  expect(await importTrial(cafe.world, cafe.stranger, recipe.id, content)).toMatchObject({ ok: true })
  const rows = await cafe.db.ingredient.findMany({ where: { cafeId: cafe.stranger.cafeId }, orderBy: { name: 'asc' } })
  expect(rows.map(({ name, alcoholBp }) => [name, alcoholBp])).toEqual([
    ['Zephyrine beans', null],
    ['Zephyrine milk', 1750],
  ])
  for (const slip of ['-1', '101', 'some'])
    expect(IngredientForm.safeParse({ ...sent, alcohol: slip }).error?.issues.map(({ path }) => path[0])).toContain(
      'alcohol',
    )
})
