/** A batch that ought to have been thrown away is named wherever somebody is about to pour it. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { readPanel } from '@/lib/tasks/plan/read-panel'
import { readCard } from '@/lib/tasks/trial/read-card'
import { readTrial } from '@/lib/tasks/trial/read-trial'
import { cafeForTest, type TestCafe } from '@/test/support/cafe'

const money = { currency: 'EUR', currencyDigits: 2, allergenList: 'eu', timeZone: 'UTC' }

let cafe: TestCafe
beforeEach(async () => {
  cafe = await cafeForTest() // its clock stands at 2026-03-14 10:00 UTC
})
afterEach(() => cafe.close())

const reader = () => ({ ...cafe.owner, cafe: money })
const withSyrup = () => cafe.trialIds[3] ?? ''
const discard = (day: string) =>
  cafe.db.preparationBatch.updateMany({ where: { id: cafe.batchIds.at(-1) ?? '' }, data: { discardAt: new Date(day) } })

test('on the sheet and the card, from the moment it is past', async () => {
  await discard('2026-03-14T10:01:00Z')
  expect((await readTrial(cafe.world, reader(), withSyrup()))?.past).toEqual([])
  cafe.pass(2 * 60_000)
  const named = [{ name: 'Ombrelle syrup, batch 1', discardAt: new Date('2026-03-14T10:01:00Z') }]
  expect((await readTrial(cafe.world, reader(), withSyrup()))?.past).toEqual(named)
  expect((await readCard(cafe.world, reader(), withSyrup()))?.sheet.past).toEqual(named)
  expect((await readTrial(cafe.world, reader(), cafe.trialIds[0] ?? ''))?.past).toEqual([])
})

test('on the page of a panel that is to be poured, not on that of one that is over', async () => {
  await discard('2026-03-01T00:00:00Z')
  const plan = cafe.plan({ cups: [cafe.trialIds[0] ?? '', withSyrup()] })
  const planned = await planPanel(cafe.world, cafe.owner, cafe.recipeId, plan)
  if (!planned.ok) throw new Error(planned.reason)
  const past = async () => (await readPanel(cafe.world, cafe.owner, planned.value))?.cups.map((cup) => cup.past.length)
  expect(await past()).toEqual([0, 1])
  await cafe.db.panel.update({ where: { id: planned.value }, data: { stage: 'closed' } })
  expect(await past()).toEqual([0, 0])
})
