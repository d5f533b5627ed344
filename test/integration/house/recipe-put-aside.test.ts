import { afterEach, beforeEach, expect, test } from 'vitest'
import { readDiary } from '@/lib/tasks/house/read-diary'
import { readPlanBasis } from '@/lib/tasks/plan/read-plan-basis'
import { readRecipesToTest } from '@/lib/tasks/plan/read-recipes-to-test'
import { archiveRecipe } from '@/lib/tasks/recipe/keep-recipe'
import { readRecipe, readRecipes } from '@/lib/tasks/recipe/read-recipe'
import { cafeForTest, type TestCafe } from '../../support/cafe'

let cafe: TestCafe
beforeEach(async () => {
  cafe = await cafeForTest()
})
afterEach(() => cafe.close())

test('a recipe put aside is offered for no panel, stays to be read, and can be taken up again', async () => {
  const { world, owner, recipeId } = cafe
  expect(await archiveRecipe(world, owner, recipeId, true)).toEqual({ ok: true, value: null })
  expect((await readRecipes(world, owner)).find(({ id }) => id === recipeId)?.archived).toBe(true)
  expect((await readRecipesToTest(world, owner)).map(({ id }) => id)).not.toContain(recipeId)
  expect(await readPlanBasis(world, owner, recipeId)).toBeNull()
  const reader = { ...owner, cafe: { currency: 'EUR', currencyDigits: 2, allergenList: 'eu' } }
  expect((await readRecipe(world, reader, recipeId))?.trials.length).toBeGreaterThan(1)

  await archiveRecipe(world, owner, recipeId, false)
  expect((await readRecipesToTest(world, owner)).map(({ id }) => id)).toContain(recipeId)
  const acts = (await readDiary(world, owner, null)).lines.map(({ act }) => act)
  expect(acts.toSorted()).toEqual(['recipe-put-aside', 'recipe-taken-up'])
})

test('another café’s recipe cannot be put aside', async () => {
  const { world, owner, recipeId } = cafe
  const stranger = { ...owner, cafeId: 'another-cafe' }
  expect(await archiveRecipe(world, stranger, recipeId, true)).toMatchObject({ ok: false, reason: 'gone' })
  expect((await readRecipes(world, owner)).find(({ id }) => id === recipeId)?.archived).toBe(false)
})
