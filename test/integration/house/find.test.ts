import { afterEach, beforeEach, expect, test } from 'vitest'
import { adoptWithoutPanel } from '@/lib/tasks/recipe/keep-recipe'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { readFound } from '@/lib/tasks/house/read-found'
import { cafeForTest, type TestCafe } from '../../support/cafe'

let cafe: TestCafe
beforeEach(async () => {
  cafe = await cafeForTest()
})
afterEach(() => cafe.close())

test('a word is found in recipes, trials, panels and decisions, and nothing of another café', async () => {
  const { world, owner, stranger, recipeId, db } = cafe
  const [trialId = ''] = cafe.trialIds
  await db.trial.update({ where: { id: trialId }, data: { name: 'À la crème' } })
  const panel = await planPanel(world, owner, recipeId, cafe.plan({ question: 'Is the crème better?' }))
  await adoptWithoutPanel(world, owner, recipeId, { trialId, reason: 'The creme sells.' })
  const found = await readFound(world, owner, 'CREME')
  expect(found.recipes.lines).toEqual([])
  expect(found.trials.lines.map(({ id }) => id)).toEqual([trialId])
  expect(found.panels.lines.map(({ id }) => id)).toEqual([panel.ok && panel.value])
  expect(found.decisions.lines.map(({ reason }) => reason)).toEqual(['The creme sells.'])
  expect((await readFound(world, owner, 'kiosk coffee')).recipes.lines.map(({ id }) => id)).toEqual([recipeId])
  for (const { lines } of Object.values(await readFound(world, stranger, 'creme'))) expect(lines).toEqual([])
})

test('nothing typed finds nothing, and of many the first twenty are shown and the rest counted', async () => {
  const { world, owner, recipeId, db } = cafe
  for (const { lines } of Object.values(await readFound(world, owner, ' '))) expect(lines).toEqual([])
  await db.trial.createMany({
    data: Array.from({ length: 23 }, (_, i) => ({
      id: world.id(),
      cafeId: owner.cafeId,
      recipeId,
      number: 100 + i,
      name: `Marjoram ${i}`,
      method: 'cold-brew',
      createdAt: world.now(),
    })),
  })
  const { trials } = await readFound(world, owner, 'marjoram')
  expect([trials.lines.length, trials.more]).toEqual([20, 3])
})
