/** What a house weighs on reaches every place that prints a tolerance. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { scalesMark } from '@/lib/tasks/opened-with'
import { keepScales } from '@/lib/tasks/store/keep-scales'
import { readScales } from '@/lib/tasks/store/read-scales'
import { keepWeighing } from '@/lib/tasks/trial/keep-weighing'
import { readTrial } from '@/lib/tasks/trial/read-trial'
import { readSizes } from '@/lib/tasks/trial/read-sizes'
import { cafeForTest, type TestCafe } from '@/test/support/cafe'

let cafe: TestCafe
const trialId = () => cafe.trialIds[0] ?? ''
const reader = () => ({ ...cafe.owner, cafe: { currency: 'EUR', currencyDigits: 2, allergenList: 'eu' } })
beforeEach(async () => {
  cafe = await cafeForTest()
  await cafe.db.ingredient.updateMany({ data: { microdensity: 1_000_000, kind: 'sweetener' } })
  await cafe.db.trial.update({ where: { id: trialId() }, data: { method: 'prepared' } })
  await cafe.db.trialLine.updateMany({ where: { trialId: trialId() }, data: { targetMg: 500, toleranceMg: null } })
})
afterEach(() => cafe.close())

const fine = { doseName: 'Pocket scale', doseDivision: 0.01 }
const steps = async () => (await readTrial(cafe.world, reader(), trialId()))?.scale.steps

test('a finer scale is named, and holds a small dose nearer; until it is said, tenths of a gram are assumed', async () => {
  // by hand: 2 % of 0.5 g are 0.01 g; half of 0.1 g is a tenth of it, half of 0.01 g a hundredth
  expect((await steps())?.[0]).toMatchObject({ tolerance: 0.1, decimals: 1, tooCoarse: { glasses: 2 } })
  expect(await keepScales(cafe.world, cafe.owner, fine, null)).toEqual({ ok: true, value: null })
  expect((await steps())?.[0]).toMatchObject({ tolerance: 0.01, decimals: 2, tooCoarse: null })
  const sizes = (await readSizes(cafe.world, reader(), trialId(), null))?.sizes ?? []
  const made = sizes.flatMap((size) => (size.made.known ? size.made.scale.steps : []))
  expect(made.length).toBeGreaterThan(0)
  for (const step of made) expect(step.decimals).toBe(2)
})

test('what was weighed keeps what it was held against, whatever scale comes', async () => {
  const weigh = (key: string) =>
    keepWeighing(cafe.world, reader(), trialId(), { key, glasses: 1, weights: [{ position: 1, grams: 0.55 }] })
  expect(await weigh('the-first-of-them')).toMatchObject({ value: { within: true } })
  await keepScales(cafe.world, cafe.owner, fine, null)
  expect(await weigh('the-second-of-them')).toMatchObject({ value: { within: false } })
  const kept = await cafe.db.weighing.findMany({ orderBy: { key: 'asc' } })
  expect(kept.map(({ within }) => within)).toEqual([true, false])
})

test('two tabs are told of each other, and nobody says it of another house', async () => {
  const opened = scalesMark(await readScales(cafe.world, cafe.owner))
  expect(await keepScales(cafe.world, cafe.owner, fine, opened)).toMatchObject({ ok: true })
  const other = { doseDivision: 0.1 }
  expect(await keepScales(cafe.world, cafe.owner, other, opened)).toMatchObject({ reason: 'saved-elsewhere' })
  expect(await keepScales(cafe.world, cafe.stranger, other, null)).toMatchObject({ ok: true })
  expect(await readScales(cafe.world, cafe.owner)).toMatchObject({ doseScaleName: 'Pocket scale', doseScaleMg: 10 })
  expect(await cafe.db.auditRow.count({ where: { act: 'scales-said' } })).toBe(2)
})

test('a scale that was named, and whose last digit nobody read, is not said to show tenths', async () => {
  await keepScales(cafe.world, cafe.owner, { doseName: 'Pocket scale' }, null)
  expect((await steps())?.[0]?.tooCoarse?.scale).toEqual({ name: null, division: 0.1 })
})
