import { afterEach, beforeEach, expect, test } from 'vitest'
import { readHistory, readRecipe } from '@/lib/tasks/recipe/read-recipe'
import { adoptWithoutPanel } from '@/lib/tasks/recipe/keep-recipe'
import { cafeForTest, type TestCafe } from '../../support/cafe'

let cafe: TestCafe
beforeEach(async () => {
  cafe = await cafeForTest()
})
afterEach(() => cafe.close())

const money = { currency: 'EUR', currencyDigits: 2, allergenList: 'eu' }

test('every decision is reached page by page, the newest first, though many are of one instant', async () => {
  const { world, owner, recipeId, trialIds } = cafe
  for (let turn = 0; turn < 45; turn++) {
    const trialId = trialIds[turn % 2] ?? ''
    expect(await adoptWithoutPanel(world, owner, recipeId, { trialId, reason: `Turn ${turn + 1}` })).toMatchObject({
      ok: true,
    })
  }
  const reader = { ...owner, cafe: money }
  const versions: (number | null)[] = []
  for (let page = 1; ; page++) {
    const found = await readHistory(world, reader, recipeId, page)
    versions.push(...(found?.decisions.map(({ version }) => version) ?? []))
    expect(found?.house).toMatchObject({ version: 45, reason: 'Turn 45' })
    if (!found?.more) break
  }
  expect(versions).toEqual(Array.from({ length: 45 }, (_, at) => 45 - at))
  expect((await readHistory(world, reader, recipeId, 99))?.decisions).toEqual([])
  expect((await readRecipe(world, reader, recipeId))?.house).toMatchObject({ version: 45 })
})

test('another café’s history is not there', async () => {
  const reader = { ...cafe.owner, cafeId: 'another-cafe', cafe: money }
  expect(await readHistory(cafe.world, reader, cafe.recipeId, 1)).toBeNull()
})
