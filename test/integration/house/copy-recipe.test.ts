/** A recipe is renamed and described, and copied with the trials one chooses: drafts of another drink, from whose recipe is kept. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { checkBooks } from '@/lib/db/books/check-books'
import { recipeWordsMark } from '@/lib/tasks/opened-with'
import { copyRecipe } from '@/lib/tasks/recipe/copy-recipe'
import { adoptWithoutPanel, changeRecipeWords, startRecipe } from '@/lib/tasks/recipe/keep-recipe'
import { cafeForTest, type TestCafe } from '@/test/support/cafe'

let cafe: TestCafe
beforeEach(async () => {
  cafe = await cafeForTest()
})
afterEach(() => cafe.close())

const change = (sent: { name: string; note?: string }, opened: string | null = null) =>
  changeRecipeWords(cafe.world, cafe.owner, cafe.recipeId, { note: undefined, ...sent }, opened)
const copy = (trials: readonly string[], name = 'Warm kiosk coffee') =>
  copyRecipe(cafe.world, cafe.owner, cafe.recipeId, { name, trials: [...trials] })

test('a recipe is renamed and described; its own name is no other’s, and the diary says both names', async () => {
  expect(await change({ name: 'Colder kiosk coffee', note: 'For the pier.' })).toMatchObject({ ok: true })
  expect(await change({ name: 'Colder kiosk coffee' })).toMatchObject({ ok: true })
  expect(await cafe.db.recipe.findUniqueOrThrow({ where: { id: cafe.recipeId } })).toMatchObject({
    name: 'Colder kiosk coffee',
    note: null,
  })
  const line = await cafe.db.auditRow.findFirstOrThrow({ where: { act: 'recipe-renamed' } })
  expect(JSON.parse(line.detail ?? '')).toEqual({ from: 'Cold kiosk coffee', to: 'Colder kiosk coffee' })
  expect(await cafe.db.auditRow.count({ where: { act: 'recipe-described' } })).toBe(1)
})

test('a name that is taken, a stale form and a stranger are refused', async () => {
  await startRecipe(cafe.world, cafe.owner, { name: 'Second', note: undefined })
  expect(await change({ name: 'Second' })).toMatchObject({ reason: 'name-taken' })
  const opened = recipeWordsMark(await cafe.db.recipe.findUniqueOrThrow({ where: { id: cafe.recipeId } }))
  await change({ name: 'Third' }, opened)
  expect(await change({ name: 'Fourth' }, opened)).toMatchObject({ reason: 'saved-elsewhere' })
  const stranger = await changeRecipeWords(
    cafe.world,
    cafe.stranger,
    cafe.recipeId,
    { name: 'X', note: undefined },
    null,
  )
  expect(stranger).toMatchObject({ reason: 'gone' })
})

test('a copy holds the chosen trials as drafts, with its own cost levels, and knows where it is from', async () => {
  const { db, owner, recipeId } = cafe
  const [first = '', second = '', third = ''] = cafe.trialIds
  const milk = await db.ingredient.findFirstOrThrow({ where: { name: 'Zephyrine milk' } })
  const line = await db.trialLine.findFirstOrThrow({ where: { trialId: first, ingredientId: milk.id } })
  await db.costLevel.create({ data: { id: 'level', cafeId: owner.cafeId, recipeId, name: 'Economy', position: 1 } })
  await db.lineAlternative.create({
    data: { id: 'other', cafeId: owner.cafeId, lineId: line.id, costLevelId: 'level', ingredientId: cafe.unreadId },
  })
  await db.trial.update({ where: { id: second }, data: { parentId: first } })
  await db.trial.update({ where: { id: third }, data: { parentId: second } })
  await db.recipe.update({ where: { id: recipeId }, data: { priceMinor: 350, wasteBp: 300 } })
  await adoptWithoutPanel(cafe.world, owner, recipeId, { trialId: first, reason: 'On the menu.' })
  const made = await copy([first, third])
  const id = made.ok ? made.value : ''
  expect(await db.recipe.findUniqueOrThrow({ where: { id } })).toMatchObject({
    name: 'Warm kiosk coffee',
    copiedFromId: recipeId,
    priceMinor: 350,
    wasteBp: 300,
  })
  const trials = await db.trial.findMany({
    where: { recipeId: id },
    orderBy: { number: 'asc' },
    include: { lines: { include: { alternatives: { include: { costLevel: true } } } } },
  })
  expect(
    trials.map(({ number, name, frozenAt, frozenSheet, parentId }) => [number, name, frozenAt, frozenSheet, parentId]),
  ).toEqual([
    [1, 'Velvetine 1', null, null, null],
    [2, 'Velvetine 3', null, null, null], // its parent stayed behind
  ])
  expect(trials[0]?.lines.flatMap(({ alternatives }) => alternatives.map(({ costLevel }) => costLevel))).toMatchObject([
    { name: 'Economy', recipeId: id, position: 1 },
  ])
  expect(await db.decision.count({ where: { recipeId: id } })).toBe(0)
  expect((await checkBooks(db)).filter(({ values }) => JSON.stringify(values).includes(id))).toEqual([])
})

test('a child whose parent goes along stays its child', async () => {
  const [first = '', second = ''] = cafe.trialIds
  await cafe.db.trial.update({ where: { id: second }, data: { parentId: first } })
  const made = await copy([second, first])
  const id = made.ok ? made.value : ''
  const [parent, child] = await cafe.db.trial.findMany({ where: { recipeId: id }, orderBy: { number: 'asc' } })
  expect(child?.parentId).toBe(parent?.id)
})

test('a copy is refused under a name that is taken, with a trial of another recipe, and to a stranger', async () => {
  expect(await copy([], 'Cold kiosk coffee')).toMatchObject({ reason: 'name-taken' })
  expect(await copy(['no-such'])).toMatchObject({ reason: 'trial-gone' })
  const sent = { name: 'Elsewhere', trials: [] }
  expect(await copyRecipe(cafe.world, cafe.stranger, cafe.recipeId, sent)).toMatchObject({ reason: 'gone' })
  expect(await cafe.db.recipe.count()).toBe(1)
})
