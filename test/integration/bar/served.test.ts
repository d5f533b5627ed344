/** Who serves an open panel is shown neither cards nor batches of its trials, the house recipe aside, until it is over. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { readBar } from '@/lib/tasks/bar/read-bar'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { openList } from '@/lib/tasks/pour/open-list'
import { openPanel } from '@/lib/tasks/pour/open-panel'
import { isServed, usesOpenTo } from '@/lib/tasks/bar/served'
import { adoptWithoutPanel } from '@/lib/tasks/recipe/keep-recipe'
import { readBatch } from '@/lib/tasks/store/read-preparation'
import { cafeForTest, type TestCafe } from '@/test/support/cafe'

let cafe: TestCafe
let panelId: string
let house: string
let tried: string
let syrup: { id: string; preparationId: string }
beforeEach(async () => {
  cafe = await cafeForTest()
  const { db, world, owner, trialIds, batchIds } = cafe
  ;[house = '', , , tried = ''] = trialIds
  await db.ingredient.updateMany({ data: { labelReadAt: world.now() } })
  syrup = await db.preparationBatch.findUniqueOrThrow({ where: { id: batchIds[1] ?? '' } })
  await db.preparationBatch.updateMany({ data: { outputMg: 100_000 } })
  expect(await adoptWithoutPanel(world, owner, cafe.recipeId, { trialId: house, reason: 'Sold.' })).toMatchObject({
    ok: true,
  })
  const planned = await planPanel(world, owner, cafe.recipeId, cafe.plan({ cups: [house, tried] }))
  if (!planned.ok) throw new Error(planned.reason)
  panelId = planned.value
  expect(await openPanel(world, owner, panelId)).toMatchObject({ ok: true })
})
afterEach(() => cafe.close())

const opens = (list: 'serving' | 'filling') => openList(cafe.world, cafe.owner, panelId, list)
const closed = (who = cafe.owner) =>
  Promise.all(
    [
      { trialId: house },
      { trialId: tried },
      { batchId: syrup.id },
      { batchId: cafe.batchIds[0] ?? '' },
      { preparationId: syrup.preparationId },
    ].map((of) => isServed(cafe.world, who, of)),
  )
const none = [false, false, false, false, false]

test('from the opening of the serving list until the panel is over, to who opened it', async () => {
  expect(await closed()).toEqual(none)
  await opens('filling')
  expect(await closed()).toEqual(none)
  await opens('serving')
  expect(await closed()).toEqual([false, true, true, true, true])
  expect(await closed(cafe.secondOwner)).toEqual(none)
  await cafe.db.panel.update({ where: { id: panelId }, data: { stage: 'closed' } })
  expect(await closed()).toEqual(none)
})

test('a preparation that goes into the house recipe, too, stays open: whoever serves must be able to make it', async () => {
  await opens('serving')
  await cafe.db.trialLine.create({
    data: {
      ...{ id: 'more', cafeId: cafe.owner.cafeId, trialId: house, position: 9, batchId: syrup.id },
      ...{ role: 'other', targetMg: 1000, typed: '1', unit: 'g' },
    },
  })
  expect(await closed()).toEqual([false, true, false, false, false])
  // and its page does not say which trial of the panel it goes into
  const uses = async (who = cafe.owner) => {
    const sheet = await readBatch(cafe.world, who, syrup.id)
    if (!sheet) throw new Error('the batch is there')
    return (await usesOpenTo(cafe.world, who, sheet.uses)).trials.map(({ id }) => id).toSorted()
  }
  expect(await uses()).toEqual([house])
  expect(await uses(cafe.secondOwner)).toEqual([house, tried].toSorted())
})

test('the bar names to them no batch of these that is due', async () => {
  await cafe.db.preparationBatch.update({ where: { id: syrup.id }, data: { discardAt: cafe.world.now() } })
  const due = async (who = cafe.owner) => (await readBar(cafe.world, who, true)).due.map(({ name }) => name)
  expect(await due()).toEqual(['Ombrelle syrup'])
  await opens('serving')
  expect(await due()).toEqual([])
  expect(await due(cafe.secondOwner)).toEqual(['Ombrelle syrup'])
})
