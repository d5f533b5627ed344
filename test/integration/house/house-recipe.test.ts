import { afterEach, beforeEach, expect, test } from 'vitest'
import { adoptWithoutPanel } from '@/lib/tasks/recipe/keep-recipe'
import { closePanel } from '@/lib/tasks/pour/close-panel'
import { decide } from '@/lib/tasks/result/decide'
import { openPanel } from '@/lib/tasks/pour/open-panel'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { readCard } from '@/lib/tasks/trial/read-card'
import { readCostLevels } from '@/lib/tasks/recipe/read-cost-levels'
import { readHome } from '@/lib/tasks/house/read-home'
import { readPanel } from '@/lib/tasks/plan/read-panel'
import { readPlanBasis } from '@/lib/tasks/plan/read-plan-basis'
import { readRecipe, readRecipes } from '@/lib/tasks/recipe/read-recipe'
import { readTrial } from '@/lib/tasks/trial/read-trial'
import { whySentence } from '@/app/ui/decision-lines'
import { cafeForTest, type TestCafe } from '../../support/cafe'

const aDay = 86_400_000
const money = { currency: 'EUR', currencyDigits: 2, allergenList: 'eu' }

let cafe: TestCafe
beforeEach(async () => {
  cafe = await cafeForTest()
})
afterEach(() => cafe.close())

test('of two adoptions the later one is the house recipe everywhere, though the clock was set back in between', async () => {
  const { world, owner, recipeId } = cafe
  const [a = '', b = ''] = cafe.trialIds
  await adoptWithoutPanel(world, owner, recipeId, { trialId: a, reason: 'On 2 June.' })
  cafe.pass(-aDay)
  await adoptWithoutPanel(world, owner, recipeId, { trialId: b, reason: 'On 1 June, by a clock set back.' })

  const reader = { ...owner, cafe: money }
  expect((await readRecipes(world, owner))[0]?.house?.trial?.id).toBe(b)
  const recipe = await readRecipe(world, reader, recipeId)
  expect(recipe?.house).toMatchObject({ version: 2, trial: { id: b } })
  expect(recipe?.trials.filter((trial) => trial.isHouse).map((trial) => trial.id)).toEqual([b])
  expect(whySentence(recipe?.house ?? null, 'UTC')).toContain('by a clock set back')
  expect((await readTrial(world, reader, b))?.isHouse).toBe(true)
  expect((await readTrial(world, reader, a))?.isHouse).toBe(false)
  expect((await readPlanBasis(world, owner, recipeId))?.houseTrialId).toBe(b)
  expect((await readCostLevels(world, reader, recipeId, null))?.trial?.id).toBe(b)

  const planned = await planPanel(world, owner, recipeId, cafe.plan({ primaryKind: 'against-house', cups: [a, b] }))
  if (!planned.ok) throw new Error(planned.reason)
  const houseCups = async () =>
    (await readPanel(world, owner, planned.value))?.cups.filter((cup) => cup.isHouse).map((cup) => cup.trialId)
  expect(await houseCups()).toEqual([b])
  await openPanel(world, owner, planned.value)
  expect(await houseCups()).toEqual([b])
  await closePanel(world, owner, planned.value)
  expect(
    await decide(world, owner, planned.value, { kind: 'keep', trialId: undefined, reason: 'It stays.' }),
  ).toMatchObject({ ok: true })
  expect(await cafe.db.decision.findFirst({ where: { kind: 'keep' } })).toMatchObject({ trialId: b })
})

test('an adoption without a panel keeps what a glass cost and held, and that no panel was held', async () => {
  const { world, owner, recipeId } = cafe
  const [a = ''] = cafe.trialIds
  await adoptWithoutPanel(world, owner, recipeId, { trialId: a, reason: 'On the menu already.' })
  const house = (await readRecipe(world, owner, recipeId))?.house
  expect(house?.evidence).toMatchObject({ sentence: null, claims: [], currency: 'EUR' })
  // the beans have no price: not known is kept as not known
  expect(house?.evidence?.trials).toMatchObject([{ trialId: a, letter: null, cost: null }])
})

test('a trial adopted twice shows its newest version on its card, by version and not by clock', async () => {
  const { world, owner, recipeId } = cafe
  const [a = '', b = ''] = cafe.trialIds
  for (const trialId of [a, b, a]) {
    await adoptWithoutPanel(world, owner, recipeId, { trialId, reason: 'Once more.' })
    cafe.pass(-aDay)
  }
  const card = await readCard(world, { ...owner, cafe: money }, a)
  expect(card?.adopted?.version).toBe(3)
})

test('what has a new price since the house recipe was adopted is asked of the house recipe by version', async () => {
  const { world, owner, recipeId, db } = cafe
  const [a = '', b = ''] = cafe.trialIds
  await adoptWithoutPanel(world, owner, recipeId, { trialId: a, reason: 'First.' })
  cafe.pass(-aDay)
  await adoptWithoutPanel(world, owner, recipeId, { trialId: b, reason: 'Then.' })
  cafe.pass(2 * aDay)
  const sugar = await db.ingredient.findFirstOrThrow({ where: { name: 'Quillberry sugar' } }) // in b alone
  await db.ingredientPrice.create({
    data: {
      id: world.id(),
      cafeId: owner.cafeId,
      ingredientId: sugar.id,
      packMg: 1_000_000,
      packTyped: '1',
      packUnit: 'kg',
      priceMinor: 100,
      day: '2026-03-15',
      since: world.now(),
      createdAt: world.now(),
    },
  })
  const home = await readHome(world, owner, true)
  expect(home.repriced).toMatchObject([{ version: 2, trial: { id: b }, ingredients: ['Quillberry sugar'] }])
})
