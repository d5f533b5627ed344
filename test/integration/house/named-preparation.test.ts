/** A line that names a preparation: whichever batch of it goes first is poured, and it stays known which one that was. */
import { createElement } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { checkBooks } from '@/lib/db/books/check-books'
import { TrialForm } from '@/lib/forms/trial-form'
import { branchTrial } from '@/lib/tasks/trial/branch-trial'
import { exportTrial } from '@/lib/tasks/trial/export-trial'
import { importTrial } from '@/lib/tasks/trial/import-trial'
import { keepWeighing } from '@/lib/tasks/trial/keep-weighing'
import { readBuilt } from '@/lib/tasks/trial/read-built'
import { readCard } from '@/lib/tasks/trial/read-card'
import { readGlasses } from '@/lib/tasks/trial/panel-glasses'
import { readMake } from '@/lib/tasks/trial/read-make'
import { changeTrial, recordTrial } from '@/lib/tasks/trial/record-trial'
import { readSheetOffer } from '@/lib/tasks/trial/read-sheet-offer'
import { readTrial } from '@/lib/tasks/trial/read-trial'
import { makeInstead } from '@/lib/tasks/trial/make-instead'
import { readInstead } from '@/lib/tasks/trial/read-instead'
import { chooseAlternatives, markTasted, nameCostLevel } from '@/lib/tasks/recipe/keep-cost-level'
import { readPanel } from '@/lib/tasks/plan/read-panel'
import { planPanel } from '@/lib/tasks/plan/plan-panel'
import { openPanel } from '@/lib/tasks/pour/open-panel'
import { closePanel } from '@/lib/tasks/pour/close-panel'
import { decide } from '@/lib/tasks/result/decide'
import { readResultGlasses } from '@/lib/tasks/result/read-result-glasses'
import { readHistory } from '@/lib/tasks/recipe/read-recipe'
import { findTrialsOfPanel } from '@/lib/db/trials'
import { takeWeights } from '@/lib/tasks/trial/take-weights'
import { HouseCard } from '@/app/(house)/trials/[trialId]/card/house-card'
import { cafeForTest, type TestCafe } from '@/test/support/cafe'

const money = { currency: 'EUR', currencyDigits: 2, allergenList: 'eu', timeZone: 'UTC' }
const cook = () => ({ ...cafe.owner, cafe: money })

let cafe: TestCafe
let coffee: string
let sugar: string
let nuts: string
let water: string
let syrup: string
beforeEach(async () => {
  cafe = await cafeForTest()
  const idOf = async (name: string) => (await cafe.db.ingredient.findFirstOrThrow({ where: { name } })).id
  coffee = await idOf('Zephyrine beans')
  sugar = await idOf('Quillberry sugar')
  await cafe.db.ingredient.update({ where: { id: sugar }, data: { sugarsMg: 100_000, waterMg: 0, form: 'powder' } })
  await cafe.db.ingredient.update({ where: { id: coffee }, data: { form: 'grounds' } })
  nuts = cafe.unreadId
  const { cafeId } = cafe.owner
  syrup = cafe.world.id()
  const createdAt = cafe.world.now()
  water = cafe.world.id()
  const tap = { cafeId, name: 'Tap water', kind: 'water', labelReadAt: createdAt, createdAt }
  await cafe.db.ingredient.create({ data: { id: water, ...tap } })
  await cafe.db.preparation.create({ data: { id: syrup, cafeId, name: 'Marlow syrup', kind: 'syrup', createdAt } })
})
afterEach(() => cafe.close())

/** One batch of the syrup, of sugar alone unless said. The clock of these tests stands at 14 March 2026, 10:00. */
async function batch(
  number: number,
  { discard = null as string | null, brix = 5000 as number | null, of = sugar, output = 100_000 as number | null } = {},
): Promise<string> {
  const id = `batch ${number}`
  const { cafeId } = cafe.owner
  const sugarMg = (brix ?? 5000) * 10
  const input = (position: number, ingredientId: string, amountMg: number) => {
    return { id: `input ${number} ${position}`, cafeId, position, ingredientId, amountMg, typed: '1', unit: 'g' }
  }
  const create = [input(1, of, sugarMg), input(2, water, 100_000 - sugarMg)]
  await cafe.db.preparationBatch.create({
    data: {
      id,
      cafeId,
      preparationId: syrup,
      number,
      outputMg: output,
      brixHundredths: brix,
      discardAt: discard === null ? null : new Date(discard),
      createdAt: cafe.world.now(),
      inputs: { create },
    },
  })
  return id
}

const sheetOf = (amount: string, more: Record<string, unknown> = {}) =>
  TrialForm.parse({
    name: 'Sweet one',
    method: 'plunger-pot',
    ratioKind: 'water-in',
    ratio: '15',
    lines: [
      { part: `ingredient:${coffee}`, amount: '18', unit: 'g' },
      { part: `preparation:${syrup}`, amount, unit: 'g' },
    ],
    steps: [],
    ...more,
  })

async function recorded(amount = '30'): Promise<string> {
  const made = await recordTrial(cafe.world, cook(), cafe.recipeId, sheetOf(amount))
  if (!made.ok) throw new Error(made.reason)
  return made.value
}

const syrupRow = (trialId: string) =>
  cafe.db.trialLine.findFirstOrThrow({
    where: { trialId, preparationId: syrup },
    select: { preparationId: true, batchId: true, ingredientId: true, targetMg: true },
  })

/** The café of these tests is laid by hand and counts its lines from 0: only what is asked here. */
const asked: readonly string[] = [
  'line-of-one-part',
  'line-of-other-preparation',
  'poured-batch-not-said',
  'poured-batch-not-frozen',
]
const codes = async () => (await checkBooks(cafe.db)).flatMap(({ code }) => (asked.includes(code) ? [code] : []))

async function opened(trialIds: readonly string[], title = 'Kiosk question') {
  const plan = cafe.plan({ cups: [...trialIds], title, publicTitle: 'Cold coffees' })
  const planned = await planPanel(cafe.world, cafe.owner, cafe.recipeId, plan)
  if (!planned.ok) throw new Error(planned.reason)
  return planned.value
}

test('the chooser offers the preparation with the batch that goes first, above its single batches', async () => {
  await batch(1, { discard: '2026-03-13T10:00:00Z' })
  await batch(2, { discard: '2026-03-20T10:00:00Z' })
  await batch(3, { discard: '2026-03-16T10:00:00Z' })
  const { parts } = await readSheetOffer(cafe.world, cook(), cafe.recipeId)
  const own = parts.filter(({ name, pour }) => name.startsWith('Marlow') || pour?.name === 'Marlow syrup')
  expect(own.map(({ ref, offeredAs, name }) => [ref, offeredAs ?? name])).toEqual([
    [`preparation:${syrup}`, 'Marlow syrup · the oldest batch in date (batch 3, discard 16 Mar 2026)'],
    ['batch:batch 3', 'Marlow syrup, batch 3'],
    ['batch:batch 2', 'Marlow syrup, batch 2'],
    ['batch:batch 1', 'Marlow syrup, batch 1'],
  ])
  // a fortnight on nothing of it is in date, and it says so
  cafe.pass(14 * 86_400_000)
  const later = await readSheetOffer(cafe.world, cook(), cafe.recipeId)
  expect(later.parts.find(({ ref }) => ref === `preparation:${syrup}`)?.offeredAs).toBe(
    'Marlow syrup · no batch in date',
  )
})

test('a sheet names the preparation, says which batch stands for it today, and does not go stale without a word', async () => {
  await batch(1, { discard: '2026-03-16T10:00:00Z' })
  const id = await recorded()
  expect(await syrupRow(id)).toEqual({ preparationId: syrup, batchId: 'batch 1', ingredientId: null, targetMg: 30_000 })
  const before = await readTrial(cafe.world, cook(), id)
  expect(before?.build.lines[1]).toMatchObject({ name: 'Marlow syrup, batch 1', anyBatch: true })
  expect(before?.todays).toMatchObject([{ line: 2, batch: { number: 1 }, before: { number: 1 }, otherwise: null }])
  // by hand: 30 g of 50 °Bx hold 15 g of sugar
  expect(before?.figures.sugars).toMatchObject({ known: true, value: expect.closeTo(15, 9) })

  await batch(2, { discard: '2026-03-20T10:00:00Z', brix: 6000 })
  cafe.pass(3 * 86_400_000)
  const after = await readTrial(cafe.world, cook(), id)
  expect(after?.build.lines[1]?.name).toBe('Marlow syrup, batch 2')
  // m₂ = m₁ · Bx₁ / Bx₂ = 30 · 50 / 60 = 25 g
  expect(after?.todays).toMatchObject([
    {
      batch: { number: 2 },
      before: { number: 1 },
      wasPoured: false,
      otherwise: { dose: 'corrected', grams: expect.closeTo(25, 9), was: 50, reads: 60 },
    },
  ])
  expect(after?.past).toEqual([])
  // saved again with the same dose it was still written for batch 1; a new dose is written for batch 2
  await changeTrial(cafe.world, cook(), id, sheetOf('30', { name: 'Renamed' }), null)
  expect((await syrupRow(id)).batchId).toBe('batch 1')
  await changeTrial(cafe.world, cook(), id, sheetOf('25'), null)
  expect((await syrupRow(id)).batchId).toBe('batch 2')
  expect((await readTrial(cafe.world, cook(), id))?.todays[0]?.otherwise).toBeNull()
  expect(await codes()).toEqual([])
})

/* 30 g of 50 °Bx hold 15 g of sugar, which stand in 25 g of 60 °Bx; 2 % of 25 g are 0.5 g. */
test('card and scale weigh the corrected dose, say so beside the sheet’s, and what is weighed is held against it', async () => {
  await batch(1, { discard: '2026-03-16T10:00:00Z' })
  await batch(2, { discard: '2026-03-20T10:00:00Z', brix: 6000 })
  await cafe.db.preparation.update({ where: { id: syrup }, data: { pumpUl: 10_000 } })
  await cafe.db.preparationBatch.update({ where: { id: 'batch 2' }, data: { microdensity: 1_250_000 } })
  const id = await recorded()
  const weigh = async (key: string, grams: number) =>
    keepWeighing(cafe.world, cook(), id, { key, glasses: 1, weights: [{ position: 2, grams }] })
  expect(await weigh('on the day', 30.2)).toMatchObject({ value: { within: true } })
  cafe.pass(3 * 86_400_000)
  const card = await readCard(cafe.world, cook(), id)
  // by hand: 10 ml of 1.25 g/ml are 12.5 g a press, so 25 g are two
  expect(card?.scale.steps[1]).toMatchObject({
    add: expect.closeTo(25, 9),
    tolerance: expect.closeTo(0.5, 9),
    corrected: { batch: 2, sheetGrams: 30 },
    presses: { is: 'about', least: 2 },
  })
  // the dose was written for the batch of 50 °Bx, whatever stands on the shelf now
  expect(card?.otherBatches).toEqual([expect.stringContaining('30 g are for 50 °Bx;')])
  if (!card) throw new Error('the trial is there')
  const printed = { size: 'a4', link: null, printed: 'today', cafe: { name: 'Kiosk', timeZone: 'UTC' } } as const
  const drawn = renderToStaticMarkup(createElement(HouseCard, { card, ...printed }))
  expect(drawn).toContain('Corrected for batch 2, untasted: the sheet says 30.0 g.')
  expect(drawn).toContain('about 2 presses of the pump')

  expect(await weigh('three days on', 30)).toMatchObject({ value: { within: false } })
  expect(await weigh('and again', 25.4)).toMatchObject({ value: { within: true } })
  const built = await readBuilt(cafe.world, cook(), id)
  expect(built?.lines[1]).toMatchObject({ wanted: expect.closeTo(25, 9), times: 2 })
  const taken = built?.built.find(({ parts }) => parts[0]?.grams === 25.4)
  expect(await takeWeights(cafe.world, cook(), id, taken?.id ?? '')).toEqual({ ok: true, value: 1 })
})

test('one degree is within; where a Brix is not known no dose can be said, and the panel stays shut', async () => {
  await batch(1, { discard: '2026-03-15T10:00:00Z' })
  const id = await recorded()
  await batch(2, { discard: '2026-03-20T10:00:00Z', brix: 5100 })
  cafe.pass(2 * 86_400_000)
  expect((await readTrial(cafe.world, cook(), id))?.todays[0]?.otherwise).toEqual({ dose: 'stays' })
  await cafe.db.preparationBatch.update({ where: { id: 'batch 2' }, data: { brixHundredths: null, outputMg: null } })
  expect((await readTrial(cafe.world, cook(), id))?.todays[0]?.otherwise).toEqual({ dose: 'unknown', lacks: ['reads'] })
  // neither the scale nor the card shows the sheet's dose as if it held
  const card = await readCard(cafe.world, cook(), id)
  expect(card?.scale.steps[1]).toMatchObject({ add: null, unread: { batch: 2, sheetGrams: 30 } })
  if (!card) throw new Error('the trial is there')
  const printed = { size: 'a4', link: null, printed: 'today', cafe: { name: 'Kiosk', timeZone: 'UTC' } } as const
  const drawn = renderToStaticMarkup(createElement(HouseCard, { card, ...printed }))
  expect(drawn).toContain('Not the 30.0 g of the sheet: batch 2 is another batch')
  const [first = ''] = cafe.trialIds
  const panel = await opened([first, id])
  expect(await openPanel(cafe.world, cafe.owner, panel)).toMatchObject({
    ok: false,
    reason: 'brix-not-known',
    detail: { names: 'Marlow syrup' },
  })
})

test('with no batch in date the sheet says so, its figures and allergens are not known, and nothing is frozen', async () => {
  await batch(1, { discard: '2026-03-15T10:00:00Z' })
  const id = await recorded()
  cafe.pass(2 * 86_400_000)
  const sheet = await readTrial(cafe.world, cook(), id)
  expect(sheet?.todays).toMatchObject([{ batch: null, line: 2 }])
  expect(sheet?.figures.problems.map(({ message }) => message)).toContain(
    'No batch of Marlow syrup is in date: make one, or name something else in its place.',
  )
  expect(sheet?.figures.sugars).toMatchObject({ known: false, missing: ['a batch of Marlow syrup in date'] })
  expect(sheet?.figures.allergens.rows.some(({ freeFromAllowed }) => freeFromAllowed)).toBe(false)
  expect((await readCard(cafe.world, cook(), id))?.unread.map(({ name }) => name)).toEqual([
    'Marlow syrup, no batch in date',
  ])
  const [first = ''] = cafe.trialIds
  const panel = await opened([first, id])
  expect(await openPanel(cafe.world, cafe.owner, panel)).toMatchObject({ ok: false, reason: 'no-batch-in-date' })
  expect(await cafe.db.trial.findUniqueOrThrow({ where: { id } })).toMatchObject({ frozenAt: null })
})

test('from form to frozen sheet: the batch really poured is written down, and a later panel says which one it pours', async () => {
  await batch(1, { discard: '2026-03-16T10:00:00Z' })
  await batch(2, { discard: '2026-03-20T10:00:00Z', brix: 6000 })
  const id = await recorded()
  const [first = ''] = cafe.trialIds
  const panel = await opened([first, id])
  expect(await openPanel(cafe.world, cafe.owner, panel)).toMatchObject({ ok: true })
  expect(await syrupRow(id)).toMatchObject({ preparationId: syrup, batchId: 'batch 1' })
  const frozen = async (number: number) =>
    (await cafe.db.preparationBatch.findUniqueOrThrow({ where: { id: `batch ${number}` } })).frozenAt
  expect(await frozen(1)).not.toBeNull()
  expect(await frozen(2)).toBeNull()
  expect(await codes()).toEqual([])
  const diary = async () =>
    (await cafe.db.auditRow.findMany({ where: { act: 'panel-opened' }, orderBy: { at: 'asc' } })).map(
      ({ detail }) => (JSON.parse(detail ?? '{}') as Record<string, unknown>)['batches'],
    )
  expect(await diary()).toEqual(['trial 5: Marlow syrup, batch 1'])

  // the sheet keeps the batch of its day; what is poured in the next panel is another one, at a corrected dose
  cafe.pass(3 * 86_400_000)
  const sheet = await readTrial(cafe.world, cook(), id)
  expect(sheet?.build.lines[1]).toMatchObject({ name: 'Marlow syrup, batch 1', targetGrams: 30 })
  expect(sheet?.poured.lines[1]).toMatchObject({ name: 'Marlow syrup, batch 2', targetGrams: expect.closeTo(25, 9) })
  expect(sheet?.todays).toMatchObject([{ batch: { number: 2 }, before: { number: 1 }, wasPoured: true }])
  const many = await readMake(cafe.world, cook(), id, { count: 'glasses', amount: 10, spare: 0 })
  expect(many?.make).toMatchObject({
    known: true,
    lines: [{ name: 'Zephyrine beans' }, { name: 'Marlow syrup, batch 2', grams: expect.closeTo(250, 9) }],
  })
  const [, second = ''] = cafe.trialIds
  const again = await opened([second, id], 'Kiosk question, again')
  expect(await openPanel(cafe.world, cafe.owner, again)).toMatchObject({ ok: true })
  expect((await syrupRow(id)).batchId).toBe('batch 1')
  expect(await frozen(2)).not.toBeNull()
  expect(await diary()).toEqual(['trial 5: Marlow syrup, batch 1', 'trial 5: Marlow syrup, batch 2'])
  expect(await codes()).toEqual([])
})

test('a closed panel says which batch went into which cup, whatever its sheet froze with, and so does the decision', async () => {
  await batch(1, { discard: '2026-03-16T10:00:00Z' })
  await batch(2, { discard: '2026-03-20T10:00:00Z', brix: 6000 })
  const id = await recorded()
  const single = sheetOf('30', {
    name: 'Other one',
    lines: [
      { part: `ingredient:${coffee}`, amount: '20', unit: 'g' },
      { part: 'batch:batch 2', amount: '30', unit: 'g' },
    ],
  })
  const other = await recordTrial(cafe.world, cook(), cafe.recipeId, single)
  if (!other.ok) throw new Error(other.reason)
  const [plain = ''] = cafe.trialIds
  const poured = async (panelId: string) =>
    new Map(
      (await readResultGlasses(cafe.world, cook(), panelId))?.map(({ trialId, batches }) => [
        trialId,
        batches.map(({ name, batch: number }) => `${name} ${number}`),
      ]),
    )
  const first = await opened([plain, id, other.value])
  await openPanel(cafe.world, cafe.owner, first)
  expect([...(await poured(first))]).toEqual([])
  await closePanel(cafe.world, cafe.owner, first)
  expect(await poured(first)).toEqual(
    new Map([
      [plain, []],
      [id, ['Marlow syrup 1']],
      [other.value, ['Marlow syrup 2']],
    ]),
  )

  // poured again after the first batch went past its day, under another name: the sheet keeps its day, the panel its own
  cafe.pass(3 * 86_400_000)
  await cafe.db.preparation.update({ where: { id: syrup }, data: { name: 'Marlow; trial 9, syrup' } })
  const again = await opened([plain, id], 'Kiosk question, again')
  await openPanel(cafe.world, cafe.owner, again)
  await closePanel(cafe.world, cafe.owner, again)
  expect((await poured(again)).get(id)).toEqual(['Marlow; trial 9, syrup 2'])
  expect((await poured(first)).get(id)).toEqual(['Marlow syrup 1'])
  const decided = await decide(cafe.world, cook(), again, { kind: 'adopt', trialId: id, reason: 'it was liked' })
  expect(decided).toMatchObject({ ok: true })
  const history = await readHistory(cafe.world, cafe.owner, cafe.recipeId, 1)
  expect(history?.decisions[0]?.evidence?.trials.map(({ trialId, batches }) => [trialId, batches])).toContainEqual([
    id,
    [{ name: 'Marlow; trial 9, syrup', batch: 2 }],
  ])

  // of a panel opened before the diary said it: the sheet frozen by it knows, an older sheet does not
  await cafe.db.auditRow.updateMany({ where: { act: 'panel-opened' }, data: { detail: '{"cups":2}' } })
  expect((await poured(first)).get(id)).toEqual(['Marlow syrup 1'])
  expect((await poured(again)).get(id)).toEqual(['Marlow syrup null'])
})

test('what stands in may be a preparation, with the allergens of every batch of it in date', async () => {
  await batch(1, { discard: '2026-03-16T10:00:00Z' })
  const mark = { id: 'mark', cafeId: cafe.owner.cafeId, ingredientId: nuts, allergen: 'tree-nuts', state: 'contains' }
  await cafe.db.ingredientAllergen.create({ data: mark })
  await batch(2, { discard: '2026-03-20T10:00:00Z', of: nuts })
  const honey = {
    id: 'honey',
    cafeId: cafe.owner.cafeId,
    name: 'Honey',
    kind: 'sweetener',
    createdAt: cafe.world.now(),
  }
  const says = { sugarsMg: 80_000, waterMg: 20_000, fatMg: 0, proteinMg: 0, labelReadAt: cafe.world.now() }
  await cafe.db.ingredient.create({ data: { ...honey, ...says } })
  const lines = [{ part: 'ingredient:honey', amount: '30', unit: 'g' }]
  const made = await recordTrial(cafe.world, cook(), cafe.recipeId, sheetOf('30', { name: 'Honeyed', lines }))
  if (!made.ok) throw new Error(made.reason)
  const found = await readInstead(cafe.world, cook(), made.value, '1')
  const proposal = found?.proposals.find(({ parts }) => parts[0]?.part.ref === `preparation:${syrup}`)
  expect(proposal?.graver.map(({ name, state }) => [name, state])).toContainEqual(['Tree nuts', 'contains'])
  const stood = await makeInstead(cafe.world, cook(), made.value, '1', proposal?.key ?? '', true)
  if (!stood.ok) throw new Error(stood.reason)
  expect(await syrupRow(stood.value)).toMatchObject({ preparationId: syrup, batchId: 'batch 1' })
})

test('a cost level uses a preparation in the place of a line, and freezing says which batch that was', async () => {
  await batch(1, { discard: '2026-03-16T10:00:00Z' })
  const level = await nameCostLevel(cafe.world, cafe.owner, cafe.recipeId, 'economy')
  if (!level.ok) throw new Error(level.reason)
  const [, id = '', third = ''] = cafe.trialIds
  const [first, second] = await cafe.db.trialLine.findMany({ where: { trialId: id }, orderBy: { position: 'asc' } })
  const lines = [{ id: first?.id ?? '' }, { id: second?.id ?? '', part: `preparation:${syrup}` }]
  expect(await chooseAlternatives(cafe.world, cafe.owner, id, level.value, lines, null)).toMatchObject({ ok: true })
  const row = () => cafe.db.lineAlternative.findFirstOrThrow({ where: { preparationId: syrup } })
  expect(await row()).toMatchObject({ ingredientId: null, batchId: null })
  await markTasted(cafe.world, cafe.owner, id, level.value)
  const sheet = await readTrial(cafe.world, cook(), id)
  expect(sheet?.build.lines[1]).toMatchObject({
    name: 'Marlow syrup, batch 1',
    insteadOf: 'Quillberry sugar',
    anyBatch: true,
  })
  expect(await openPanel(cafe.world, cafe.owner, await opened([id, third]))).toMatchObject({ ok: true })
  expect(await row()).toMatchObject({ batchId: 'batch 1' })
  expect((await cafe.db.preparationBatch.findUniqueOrThrow({ where: { id: 'batch 1' } })).frozenAt).not.toBeNull()
  // another batch goes first later: the sheet of its day, and its labels, stay those of batch 1
  await batch(2, { discard: '2026-03-20T10:00:00Z', of: nuts })
  cafe.pass(3 * 86_400_000)
  const later = await readTrial(cafe.world, cook(), id)
  expect(later?.build.lines[1]?.name).toBe('Marlow syrup, batch 1')
  expect(later?.build.beside.map(({ line, why }) => [line.name, why])).toEqual([
    ['Marlow syrup, batch 2', 'other-batch'],
  ])
  expect(await codes()).toEqual([])
})

test('two cups of one panel that would get two batches are named before it opens', async () => {
  await batch(1, { discard: '2026-03-16T10:00:00Z' })
  await batch(2, { discard: '2026-03-20T10:00:00Z' })
  const named = await recorded()
  const single = sheetOf('30', {
    name: 'Other one',
    lines: [
      { part: `ingredient:${coffee}`, amount: '20', unit: 'g' },
      { part: 'batch:batch 2', amount: '30', unit: 'g' },
    ],
  })
  const made = await recordTrial(cafe.world, cook(), cafe.recipeId, single)
  if (!made.ok) throw new Error(made.reason)
  const panel = await opened([named, made.value])
  const reading = await readPanel(cafe.world, cafe.owner, panel)
  expect(reading?.apart).toEqual([
    {
      name: 'Marlow syrup',
      batches: [
        { number: 1, cups: ['trial 5, Sweet one'] },
        { number: 2, cups: ['trial 6, Other one'] },
      ],
    },
  ])
  expect(reading?.cups.find(({ trialId }) => trialId === named)?.todays).toMatchObject([{ batch: { number: 1 } }])
})

test('every open batch counts for allergens, weighed or not, and one that is new blocks the card', async () => {
  await batch(1, { discard: '2026-03-16T10:00:00Z' })
  const id = await recorded()
  expect((await readCard(cafe.world, cook(), id))?.unread).toEqual([])
  await batch(2, { discard: '2026-03-20T10:00:00Z', of: nuts, output: null, brix: null })
  expect((await readCard(cafe.world, cook(), id))?.unread.map(({ name }) => name)).toEqual(['Quillberry paste'])
  await cafe.db.ingredient.update({ where: { id: nuts }, data: { labelReadAt: cafe.world.now() } })
  const mark = { id: 'mark', cafeId: cafe.owner.cafeId, ingredientId: nuts, allergen: 'tree-nuts', state: 'contains' }
  await cafe.db.ingredientAllergen.create({ data: mark })
  const card = await readCard(cafe.world, cook(), id)
  expect(card?.allergens).toContain('Contains: Tree nuts.')
  // what a phone at the door is told of is the same
  const [first = ''] = cafe.trialIds
  const panel = await opened([first, id])
  const glasses = await readGlasses(
    cafe.db,
    cafe.owner.cafeId,
    'eu',
    await findTrialsOfPanel(cafe.db, cafe.owner.cafeId, panel),
    cafe.world.now(),
  )
  const beside = glasses.get(id)?.builds.flatMap((build) => build.beside) ?? []
  expect(beside.map(({ line, why }) => [line.name, why])).toEqual([['Marlow syrup, batch 2', 'other-batch']])
  // past its day it is never poured: its allergens no longer count
  await cafe.db.preparationBatch.update({
    where: { id: 'batch 2' },
    data: { discardAt: new Date('2026-03-13T10:00:00Z') },
  })
  expect((await readCard(cafe.world, cook(), id))?.allergens.join(' ')).not.toContain('Tree nuts')
})

test('a copy, and a file of it read again, name the preparation too', async () => {
  await batch(1, { discard: '2026-03-16T10:00:00Z' })
  const id = await recorded()
  const copy = await branchTrial(cafe.world, cafe.owner, id, 'Copy')
  if (!copy.ok) throw new Error(copy.reason)
  expect(await syrupRow(copy.value)).toMatchObject({ preparationId: syrup, batchId: 'batch 1' })
  const file = await exportTrial(cafe.world, cook(), id)
  const read = await importTrial(cafe.world, cafe.owner, cafe.recipeId, file?.content ?? '')
  if (!read.ok) throw new Error(JSON.stringify(read))
  const row = await syrupRow(read.value)
  expect(row.preparationId).toBe(syrup)
  expect(row.batchId).not.toBe('batch 1')
  expect(await codes()).toEqual([])
})

test('with no batch in date the file is written with the batch of the sheet; where there never was one, it says so', async () => {
  await batch(1, { discard: '2026-03-16T10:00:00Z' })
  const id = await recorded()
  cafe.pass(3 * 86_400_000)
  expect((await readTrial(cafe.world, cook(), id))?.todays).toMatchObject([{ batch: null, before: { number: 1 } }])
  const file = await exportTrial(cafe.world, cook(), id)
  expect(file?.fault).toBeNull()
  const read = await importTrial(cafe.world, cafe.owner, cafe.recipeId, file?.content ?? '')
  if (!read.ok) throw new Error(JSON.stringify(read))
  expect(await syrupRow(read.value)).toMatchObject({ preparationId: syrup, targetMg: 30_000 })
  const inputs = await cafe.db.batchInput.findMany({
    where: { batchId: (await syrupRow(read.value)).batchId ?? '' },
    orderBy: { position: 'asc' },
    select: { amountMg: true },
  })
  // as batch 1 was made: 50 g of sugar and 50 g of water
  expect(inputs).toEqual([{ amountMg: 50_000 }, { amountMg: 50_000 }])

  const never = cafe.world.id()
  const createdAt = cafe.world.now()
  const { cafeId } = cafe.owner
  await cafe.db.preparation.create({ data: { id: never, cafeId, name: 'Unmade syrup', kind: 'syrup', createdAt } })
  await cafe.db.trialLine.updateMany({
    where: { trialId: id, preparationId: syrup },
    data: { preparationId: never, batchId: null },
  })
  const none = await exportTrial(cafe.world, cook(), id)
  expect(none?.fault).toContain('No batch of Unmade syrup is in date')
})

test.each(['infusion', 'other'])(
  'what is %s and was read goes by °Bx as a syrup does, unless milk is in it',
  async (kind) => {
    await cafe.db.preparation.update({ where: { id: syrup }, data: { kind } })
    await batch(1, { discard: '2026-03-15T10:00:00Z' })
    await cafe.db.batchInput.updateMany({
      where: { ingredientId: water },
      data: { isStrainedOut: kind === 'infusion' },
    })
    const id = await recorded()
    await batch(2, { discard: '2026-03-20T10:00:00Z', brix: 6000 })
    cafe.pass(2 * 86_400_000)
    const otherwise = async () => (await readTrial(cafe.world, cook(), id))?.todays[0]?.otherwise
    // by hand: 30 g of 50 °Bx hold 15 g, which stand in 25 g of 60 °Bx
    expect(await otherwise()).toMatchObject({ dose: 'corrected', grams: expect.closeTo(25, 9), was: 50, reads: 60 })
    await cafe.db.preparationBatch.update({ where: { id: 'batch 2' }, data: { brixHundredths: null } })
    expect(await otherwise()).toEqual({ dose: 'unknown', lacks: ['reads'] })
    await cafe.db.preparationBatch.update({ where: { id: 'batch 1' }, data: { brixHundredths: null } })
    expect(await otherwise()).toBeNull()
    const formula = { id: 'f', cafeId: cafe.owner.cafeId, preparationId: syrup, version: 1, brixHundredths: 5000 }
    await cafe.db.preparationFormula.create({ data: { ...formula, createdAt: cafe.world.now() } })
    expect(await otherwise()).toEqual({ dose: 'unknown', lacks: ['was', 'reads'] })
    await cafe.db.ingredient.update({ where: { id: water }, data: { kind: 'milk' } })
    expect(await otherwise()).toBeNull()
  },
)

test('a dose that was written for no batch is held against the °Bx that the formula names', async () => {
  const id = await recorded()
  await batch(1, { brix: 6000 })
  const otherwise = async () => (await readTrial(cafe.world, cook(), id))?.todays[0]?.otherwise
  expect(await otherwise()).toBeNull()
  const formula = { id: 'f', cafeId: cafe.owner.cafeId, preparationId: syrup, version: 1, brixHundredths: 5000 }
  await cafe.db.preparationFormula.create({ data: { ...formula, createdAt: cafe.world.now() } })
  expect(await otherwise()).toMatchObject({ dose: 'corrected', grams: expect.closeTo(25, 9), was: 50, reads: 60 })
})
