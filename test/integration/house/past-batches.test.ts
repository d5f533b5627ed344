/** A batch that ought to have been thrown away is named wherever somebody is about to pour it. */
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { BatchForm } from '@/lib/forms/preparation-form'
import { recordBatch, correctBatch } from '@/lib/tasks/store/keep-batch'
import { readBatch } from '@/lib/tasks/store/read-preparation'
import { openPanel } from '@/lib/tasks/pour/open-panel'
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

test('a panel is not opened over one without a word; who says that another is poured has it in the diary', async () => {
  await discard('2026-03-01T00:00:00Z')
  const plan = cafe.plan({ cups: [cafe.trialIds[0] ?? '', withSyrup()] })
  const planned = await planPanel(cafe.world, cafe.owner, cafe.recipeId, plan)
  if (!planned.ok) throw new Error(planned.reason)
  await cafe.db.ingredient.updateMany({ data: { labelReadAt: cafe.world.now() } })
  const refused = { ok: false, reason: 'batch-past-date', detail: { names: 'Ombrelle syrup, batch 1' } }
  expect(await openPanel(cafe.world, cafe.owner, planned.value)).toEqual(refused)
  expect(await cafe.db.seat.count({ where: { panelId: planned.value } })).toBe(0)
  expect(await openPanel(cafe.world, cafe.owner, planned.value, true)).toMatchObject({ ok: true })
  const row = await cafe.db.auditRow.findFirstOrThrow({ where: { act: 'panel-opened', subjectId: planned.value } })
  expect(JSON.parse(row.detail ?? '')).toMatchObject({ pourFresh: true })
})

describe('the date on the bottle and the limits of keeping agree, or the page says which was overridden', () => {
  const cook = () => ({ ...cafe.owner, cafe: money })
  const sugarAndWater = async (discardAt: string, more: object = {}) => {
    const { cafeId } = cafe.owner
    const row = await cafe.db.preparationBatch.findFirstOrThrow({ where: { cafeId }, include: { inputs: true } })
    const inputs = row.inputs.map((one) => ({
      part: one.ingredientId ? `ingredient:${one.ingredientId}` : `batch:${one.inputBatchId}`,
      amount: String(one.amountMg / 1000),
      unit: 'g',
    }))
    const grams = row.inputs.reduce((all, one) => all + one.amountMg, 0) / 1000
    const typed = {
      inputs,
      output: String(grams),
      brix: '50',
      madeAt: '2026-03-14T09:00',
      discardAt,
      ...more,
    }
    const sent = BatchForm.parse(typed)
    const made = await recordBatch(cafe.world, cook(), row.preparationId, sent)
    if (!made.ok) throw new Error(made.reason)
    return { id: made.value, preparationId: row.preparationId, typed }
  }

  test('longer than advised, longer than the house keeps it, or neither', async () => {
    const fortnight = await sugarAndWater('2026-03-28T09:00')
    // 50 °Bx can spoil: the Food Code's seven days (trade.md, S)
    expect((await readBatch(cafe.world, reader(), fortnight.id))?.overridden).toEqual([{ of: 'advice', days: 7 }])
    await cafe.db.preparation.update({ where: { id: fortnight.preparationId }, data: { keepsHours: 120 } })
    expect((await readBatch(cafe.world, reader(), fortnight.id))?.overridden).toEqual([
      { of: 'house', days: 5 },
      { of: 'advice', days: 7 },
    ])
    const week = BatchForm.parse({ ...fortnight.typed, discardAt: '2026-03-19T09:00' })
    expect(await correctBatch(cafe.world, cook(), fortnight.id, week, null)).toMatchObject({ ok: true })
    expect((await readBatch(cafe.world, reader(), fortnight.id))?.overridden).toEqual([])
  })

  test('a batch takes the earliest date of what is in it, or says so', async () => {
    const inner = await sugarAndWater('2026-03-16T09:00')
    const outer = await sugarAndWater('2026-03-18T09:00', {
      inputs: [{ part: `batch:${inner.id}`, amount: '100', unit: 'g' }],
      output: '100',
    })
    expect((await readBatch(cafe.world, reader(), outer.id))?.outlived).toMatchObject([
      { discardAt: new Date('2026-03-16T09:00:00Z') },
    ])
    expect((await readBatch(cafe.world, reader(), inner.id))?.outlived).toEqual([])
  })
})
