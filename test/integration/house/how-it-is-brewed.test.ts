import { afterEach, beforeEach, expect, test } from 'vitest'
import { computeBuild } from '@/lib/drink/build'
import { vesselForm } from '@/lib/forms/preparation-form'
import { readFrozenSheet } from '@/lib/forms/frozen-sheet'
import { readTrialFile } from '@/lib/forms/trial-of-file'
import { TrialForm } from '@/lib/forms/trial-form'
import { branchTrial } from '@/lib/tasks/trial/branch-trial'
import { exportTrial } from '@/lib/tasks/trial/export-trial'
import { importTrial } from '@/lib/tasks/trial/import-trial'
import { readCard } from '@/lib/tasks/trial/read-card'
import { readMake } from '@/lib/tasks/trial/read-make'
import { readTrial } from '@/lib/tasks/trial/read-trial'
import { changeTrial, recordTrial } from '@/lib/tasks/trial/record-trial'
import { adoptWithoutPanel } from '@/lib/tasks/recipe/keep-recipe'
import { correctVessel, enterVessel } from '@/lib/tasks/store/keep-vessel'
import { cafeForTest, type TestCafe } from '@/test/support/cafe'

let cafe: TestCafe
beforeEach(async () => {
  cafe = await cafeForTest()
})
afterEach(() => cafe.close())

const money = { currency: 'EUR', currencyDigits: 2, allergenList: 'eu' }
const reader = () => ({ ...cafe.owner, cafe: money })

/** As the form sends it: 15 g of coffee at 1:10, ground at mark 6, brewed at 93 °C for four and a half minutes. */
async function brewed(more: Record<string, string | undefined> = {}): Promise<string> {
  const { cafeId } = cafe.owner
  const coffee = await cafe.db.ingredient.findFirstOrThrow({ where: { cafeId, kind: 'coffee' } })
  await cafe.db.ingredient.update({ where: { id: coffee.id }, data: { form: 'grounds' } })
  const line = { part: `ingredient:${coffee.id}`, amount: '15', unit: 'g', grind: 'medium, mark 6' }
  const sheet = { name: 'At 93', method: 'plunger-pot', ratioKind: 'water-in', ratio: '10' }
  const sent = TrialForm.parse({ ...sheet, waterTemperature: '93', brewMinutes: '4,5', lines: [line], ...more })
  const made = await recordTrial(cafe.world, reader(), cafe.recipeId, sent)
  if (!made.ok) throw new Error(made.reason)
  return made.value
}

const how = { grind: 'medium, mark 6', waterTemperature: 93, seconds: 270 }

test('grind, water and time come from the form to the card, the list of many, the copy and the frozen sheet', async () => {
  const id = await brewed()
  const card = await readCard(cafe.world, reader(), id)
  expect(card?.scale.steps[0]?.brew).toMatchObject({ dose: 15, water: 150, ...how })
  const many = await readMake(cafe.world, reader(), id, { count: 'glasses', amount: 10, spare: 0 })
  expect(many?.make).toMatchObject({ lines: [{ brew: { water: 1500, ...how } }] })

  const copy = await branchTrial(cafe.world, cafe.owner, id, 'Finer')
  const copied = copy.ok ? await readTrial(cafe.world, reader(), copy.value) : null
  expect(copied?.build.brew).toMatchObject({ waterTemperature: 93, seconds: 270 })
  expect(copied?.parent?.changes).toEqual([])

  expect(
    await adoptWithoutPanel(cafe.world, reader(), cafe.recipeId, { trialId: id, reason: 'It is what we brew.' }),
  ).toMatchObject({
    ok: true,
  })
  const { frozenSheet } = await cafe.db.trial.findUniqueOrThrow({ where: { id } })
  const frozen = readFrozenSheet(frozenSheet ?? '')
  expect(frozen.ok && frozen.value.build.lines[0]?.grind).toBe('medium, mark 6')
  expect(frozen.ok && frozen.value.build.brew).toMatchObject({ waterTemperature: 93, seconds: 270 })
})

test('they leave in the file and come back; a file that says nothing of them is what an older house reads', async () => {
  const file = await exportTrial(cafe.world, reader(), await brewed())
  expect(JSON.parse(file?.content ?? '')).toMatchObject({
    brew: { waterTemperature: 93, seconds: 270 },
    lines: [{ grind: 'medium, mark 6' }],
  })
  const back = await importTrial(cafe.world, cafe.owner, cafe.recipeId, file?.content ?? '')
  const read = back.ok ? await readTrial(cafe.world, reader(), back.value) : null
  expect(read?.trial).toMatchObject({ waterDeciC: 930, brewSeconds: 270, lines: [{ grind: 'medium, mark 6' }] })

  const silent = await exportTrial(
    cafe.world,
    reader(),
    await brewed({ waterTemperature: undefined, brewMinutes: undefined }),
  )
  expect(silent?.content).not.toMatch(/waterTemperature|seconds/)
  expect(readTrialFile(silent?.content ?? '')).toMatchObject({ ok: true })
})

test('another grind, water or time is a change that is named', async () => {
  const id = await brewed()
  const copy = await branchTrial(cafe.world, cafe.owner, id, 'Finer')
  if (!copy.ok) throw new Error(copy.reason)
  const { lines } = await cafe.db.trial.findUniqueOrThrow({ where: { id: copy.value }, include: { lines: true } })
  const line = { part: `ingredient:${lines[0]?.ingredientId}`, amount: '15', unit: 'g', grind: 'fine' }
  const sheet = { name: 'Finer', method: 'plunger-pot', ratioKind: 'water-in', ratio: '10', lines: [line] }
  const sent = TrialForm.parse({ ...sheet, waterTemperature: '88', brewMinutes: '4' })
  expect(await changeTrial(cafe.world, reader(), copy.value, sent, null)).toMatchObject({ ok: true })
  const after = await readTrial(cafe.world, reader(), copy.value)
  expect(after?.parent?.changes.map(({ clause }) => clause)).toEqual([
    expect.stringContaining('ground medium, mark 6 → 15 g ground fine'),
    'brewing water 93 °C → 88 °C',
    'brewing time 4.5 min → 4 min',
  ])
})

test('a glass whose ice was weighed melts by its own warmth', async () => {
  const form = vesselForm(money)
  // 25 °C, ten minutes and 15.74 g melted: 15.74 · 333.55 / (600 · 25) = 0.35 W/K (by hand)
  const tall = form.parse({ name: 'Tall', brim: '400', melted: '15.74', minutes: '10', room: '25' })
  const made = await enterVessel(cafe.world, reader(), tall)
  const id = made.ok ? made.value : ''
  expect(await cafe.db.vessel.findUniqueOrThrow({ where: { id } })).toMatchObject({ leakMilli: 350 })
  const thick = form.parse({ name: 'Tall', brim: '400', leak: '0.2' })
  expect(await correctVessel(cafe.world, reader(), id, thick, null)).toMatchObject({ ok: true })

  const trial = await readTrial(cafe.world, reader(), await brewed({ vesselId: id }))
  expect(trial?.build.room).toEqual({ temperature: null, heatLeak: 0.2 })
  const assumed = trial ? computeBuild(trial.build).dilution[0]?.meltwater : null
  expect(assumed?.known && assumed.assumed.join()).not.toContain('lets in')

  const half = form.safeParse({ name: 'Tall', brim: '400', melted: '15' })
  expect(half.error?.issues.map(({ path }) => path.join())).toEqual(['minutes', 'room'])
  const slip = form.safeParse({ name: 'Tall', brim: '400', melted: '1574', minutes: '10', room: '25' })
  expect(slip.error?.issues[0]?.message).toContain('35 W per degree')
})
