/** An amount in percent of the glass, or in parts, is grams by the time it is kept, and stays as it was typed. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { readFrozenSheet } from '@/lib/forms/frozen-sheet'
import { readTrialFile } from '@/lib/forms/trial-of-file'
import { FirstTrialForm, TrialForm } from '@/lib/forms/trial-form'
import { adoptWithoutPanel } from '@/lib/tasks/recipe/keep-recipe'
import { climbLadder } from '@/lib/tasks/trial/climb-ladder'
import { exportTrial } from '@/lib/tasks/trial/export-trial'
import { importTrial } from '@/lib/tasks/trial/import-trial'
import { readSheetOffer } from '@/lib/tasks/trial/read-sheet-offer'
import { readTrial } from '@/lib/tasks/trial/read-trial'
import { recordTrial } from '@/lib/tasks/trial/record-trial'
import { sheetDefaults } from '@/app/(house)/trials/[trialId]/edit/sheet-defaults'
import { cafeForTest, type TestCafe } from '@/test/support/cafe'

let cafe: TestCafe
beforeEach(async () => {
  cafe = await cafeForTest()
})
afterEach(() => cafe.close())

const money = { currency: 'EUR', currencyDigits: 2, allergenList: 'eu' }
const reader = () => ({ ...cafe.owner, cafe: money })

const fresh = (newName: string, newKind: string, newForm: string, amount: string, unit: string) => ({
  part: 'new',
  newName,
  newKind,
  newForm,
  amount,
  unit,
})
const coffee = fresh('Hill coffee', 'coffee', 'grounds', '15', 'g')
const cubes = fresh('Cubes', 'ice', 'ice', '2', 'part')
const dates = fresh('Date paste', 'sweetener', 'liquid', '12', 'percent')
const oat = fresh('Oat base', 'milk', 'liquid', '6', 'percent')
const brewed = { name: 'In shares', method: 'pour-over', ratioKind: 'water-in', ratio: '10', retention: '2' }

const record = (lines: readonly object[], more: object = {}) =>
  recordTrial(cafe.world, reader(), cafe.recipeId, TrialForm.parse({ ...brewed, partGrams: '63', lines, ...more }))

async function recorded(lines: readonly object[], more: object = {}): Promise<string> {
  const made = await record(lines, more)
  if (!made.ok) throw new Error(`${made.reason} ${JSON.stringify(made.detail)}`)
  return made.value
}

const rowsOf = async (trialId: string) =>
  (await cafe.db.trialLine.findMany({ where: { trialId }, orderBy: { position: 'asc' } })).map(
    ({ targetMg, typed, unit, microdensity }) => [targetMg, typed, unit, microdensity],
  )

/*
 * By hand: 15 g of coffee at 1:10 give 15 · (10 − 2) = 120 g; two parts of 63 g are 126 g of ice; 246 g are the 82 % that 12 %
 * and 6 % leave, so the glass is 300 g, the date paste 36 g and the oat base 18 g.
 */
const kept = [
  [15_000, '15', 'g', null],
  [126_000, '2', 'part', 63_000_000],
  [36_000, '12', 'percent', null],
  [18_000, '6', 'percent', null],
]

test('shares and parts are kept as grams, shown as typed, and the same again when the sheet is saved once more', async () => {
  const id = await recorded([coffee, cubes, dates, oat])
  expect(await rowsOf(id)).toEqual(kept)
  const sheet = await readTrial(cafe.world, reader(), id)
  const offer = await readSheetOffer(cafe.world, reader(), cafe.recipeId)
  if (!sheet || !offer) throw new Error('the trial is there')
  expect(sheet.figures.totalMass).toMatchObject({ known: true, value: expect.closeTo(300, 9) })
  const defaults = sheetDefaults(sheet, offer)
  expect(defaults).toMatchObject({ partGrams: '63', lines: [{}, { amount: '2', unit: 'part', density: '' }, {}, {}] })
  const filled = (one: object) => Object.fromEntries(Object.entries(one).filter(([, value]) => value !== ''))
  const again = TrialForm.parse({ ...filled(defaults), lines: defaults.lines.map(filled) })
  const second = await recordTrial(cafe.world, reader(), cafe.recipeId, again)
  expect(second.ok && (await rowsOf(second.value))).toEqual(kept)
})

test('they leave in the file, come back, and stand in the frozen sheet', async () => {
  const id = await recorded([coffee, cubes, dates, oat])
  const { content = '' } = (await exportTrial(cafe.world, reader(), id)) ?? {}
  const before = await readTrial(cafe.world, reader(), id)
  const read = readTrialFile(content)
  expect(read.ok && read.value.lines).toEqual(before?.build.lines)
  const imported = await importTrial(cafe.world, cafe.owner, cafe.recipeId, content)
  expect(imported.ok && (await rowsOf(imported.value))).toEqual(kept)

  await adoptWithoutPanel(cafe.world, reader(), cafe.recipeId, { trialId: id, reason: 'It is what we pour.' })
  const { frozenSheet } = await cafe.db.trial.findUniqueOrThrow({ where: { id } })
  const frozen = readFrozenSheet(frozenSheet ?? '')
  expect(frozen.ok && frozen.value.build.lines.map(({ typed }) => typed)).toEqual(
    before?.build.lines.map(({ typed }) => typed),
  )
})

/** Nothing can be a share of what is not known, and no share is the whole. */
test.each([
  ['all of it', [cubes, { ...dates, amount: '100' }], 'shares-too-much', '1'],
  ['shares alone', [dates, oat], 'share-of-nothing', '1'],
  ['dry coffee', [cubes, { ...coffee, unit: 'percent' }], 'share-of-grounds', '1'],
  ['beside a brew that nobody knows', [coffee, dates], 'share-of-unknown', '1'],
])('what cannot be is refused at its line, and nothing is kept: %s', async (_, lines, reason, line) => {
  const more = reason === 'share-of-unknown' ? { ratio: undefined } : {}
  const before = await cafe.db.ingredient.count()
  expect(await record(lines, more)).toMatchObject({ ok: false, reason, detail: { line } })
  expect(await cafe.db.ingredient.count()).toBe(before)
})

test('parts of which nobody said the grams are asked for at that field', () => {
  const read = TrialForm.safeParse({ ...brewed, lines: [cubes] })
  expect(read.error?.issues).toMatchObject([{ path: ['partGrams'] }])
})

/* As ready coffee the 15 g are 15 g in the glass: 36 g of 195 g are no longer 12 %. */
test('where the store says otherwise what an ingredient is, a share that is none any more is not said', async () => {
  const id = await recorded([coffee, cubes, dates, oat])
  const typed = async () => (await readTrial(cafe.world, reader(), id))?.build.lines.map((line) => line.typed?.unit)
  expect(await typed()).toEqual(['g', 'part', 'percent', 'percent'])
  await cafe.db.ingredient.updateMany({ where: { name: 'Hill coffee' }, data: { form: 'liquid' } })
  expect(await typed()).toEqual(['g', 'part', undefined, undefined])
})

test('the few fields of a first trial take no shares', () => {
  const read = FirstTrialForm.safeParse({ name: 'First', method: 'no-coffee', lines: [cubes] })
  expect(read.error?.issues).toMatchObject([{ path: ['lines', 0, 'unit'] }])
})

/** A rung holds the grams: of a larger glass 36 g would no longer be 12 %, so the sheet says 36 g. */
test('where one line is varied, the shares beside it become the grams they were', async () => {
  const id = await recorded([coffee, cubes, dates, oat])
  const rungs = await climbLadder(cafe.world, reader(), id, { vary: 'dose', line: '2', levels: [200] })
  if (!rungs.ok) throw new Error(rungs.reason)
  expect(await rowsOf(rungs.value[0] ?? '')).toEqual([
    kept[0],
    [200_000, '200', 'g', null],
    [36_000, '36', 'g', null],
    [18_000, '18', 'g', null],
  ])
})
