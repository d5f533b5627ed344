/** How a preparation is made: versions that are added and never changed, no circle, and a batch taken over as the first. */
import { afterEach, beforeEach, expect, test } from 'vitest'
import { checkBooks } from '@/lib/db/books/check-books'
import { BatchForm } from '@/lib/forms/preparation-form'
import { FormulaForm } from '@/lib/forms/formula-form'
import { formulaMark } from '@/lib/tasks/opened-with'
import { formulaFromBatch, keepFormula } from '@/lib/tasks/store/keep-formula'
import { recordBatch } from '@/lib/tasks/store/keep-batch'
import { readBatch } from '@/lib/tasks/store/read-preparation'
import { readBarBatch } from '@/lib/tasks/bar/read-bar-batch'
import { readYields } from '@/lib/tasks/store/read-yields'
import { readFormula, readFormulaOffer, readFormulaStart } from '@/lib/tasks/store/read-formula'
import { cafeForTest, type TestCafe } from '@/test/support/cafe'

const money = { currency: 'EUR', currencyDigits: 2, allergenList: 'eu', timeZone: 'UTC' }
const reader = () => ({ ...cafe.owner, cafe: money })
const cook = reader

let cafe: TestCafe
let sugar: string
let base: string
let syrup: string
beforeEach(async () => {
  cafe = await cafeForTest()
  sugar = (await cafe.db.ingredient.findFirstOrThrow({ where: { name: 'Quillberry sugar' } })).id
  await cafe.db.ingredient.update({ where: { id: sugar }, data: { sugarsMg: 100_000, waterMg: 0, form: 'powder' } })
  base = (await cafe.db.preparation.findFirstOrThrow({ where: { name: 'Ombrelle base' } })).id
  syrup = (await cafe.db.preparation.findFirstOrThrow({ where: { name: 'Ombrelle syrup' } })).id
})
afterEach(() => cafe.close())

const typed = (inputs: [part: string, grams: string][], more: Record<string, unknown> = {}) =>
  FormulaForm.parse({ inputs: inputs.map(([part, amount]) => ({ part, amount, unit: 'g' })), ...more })
const keep = (of: string, inputs: [string, string][], more = {}, opened: string | null = null) =>
  keepFormula(cafe.world, cafe.owner, of, typed(inputs, more), opened)

test('a version is added, the newest counts, and the earlier one says what changed', async () => {
  expect(await readFormula(cafe.world, cafe.owner, syrup)).toBeNull()
  const more = { target: '900', storage: '4', keepsHours: '168', steps: [{ text: 'Simmer', minutes: '20' }] }
  expect(await keep(syrup, [[`ingredient:${sugar}`, '600']], more)).toEqual({ ok: false, ...tooHeavy })
  expect(await keep(syrup, [[`ingredient:${sugar}`, '600']], { ...more, target: '550' })).toEqual({
    ok: true,
    value: 1,
  })
  const second: [string, string][] = [
    [`ingredient:${sugar}`, '610'],
    [`preparation:${base}`, '40'],
  ]
  expect(await keep(syrup, second, { ...more, target: '600' })).toEqual({ ok: true, value: 2 })
  const sheet = await readFormula(cafe.world, cafe.owner, syrup)
  expect(sheet?.versions.map(({ row, by }) => [row.version, row.targetMg, by])).toEqual([
    [2, 600_000, 'Ottoline'],
    [1, 550_000, 'Ottoline'],
  ])
  expect(sheet?.newest.changes).toEqual([
    { what: 'amount', name: 'Quillberry sugar', before: 600, after: 610 },
    { what: 'added', name: 'Ombrelle base', grams: 40 },
    { what: 'target', before: 550, after: 600 },
  ])
  expect(sheet?.gives).toEqual({ grams: 600, by: 'target' })
  expect(sheet?.newest.steps).toEqual([{ text: 'Simmer', minutes: 20 }])
  const acts = await cafe.db.auditRow.findMany({ where: { act: 'formula-kept' } })
  expect(acts.map(({ subjectId, actorId }) => [subjectId, actorId])).toEqual(Array(2).fill([syrup, cafe.owner.userId]))
  expect(await checkBooks(cafe.db)).not.toContainEqual(expect.objectContaining({ code: 'formula-versions' }))
})
const tooHeavy = { reason: 'target-too-heavy', detail: { grams: '600' } }

test('a circle is refused, through whatever chain, and by its names', async () => {
  expect(await keep(base, [[`preparation:${base}`, '10']])).toMatchObject({ ok: false, reason: 'loop' })
  expect(await keep(syrup, [[`preparation:${base}`, '10']])).toMatchObject({ ok: true })
  expect(await keep(base, [[`preparation:${syrup}`, '10']])).toMatchObject({
    reason: 'loop',
    detail: { path: expect.stringMatching(/Ombrelle (base|syrup) → Ombrelle (base|syrup) → Ombrelle (base|syrup)/) },
  })
  // the version that counts no longer takes it: now the other way round is no circle
  expect(await keep(syrup, [[`ingredient:${sugar}`, '10']])).toMatchObject({ ok: true })
  expect(await keep(base, [[`preparation:${syrup}`, '10']])).toMatchObject({ ok: true })
  const offer = await readFormulaOffer(cafe.world, cafe.owner, base)
  expect(offer.map(({ ref }) => ref)).toContain(`preparation:${syrup}`)
  expect(offer.map(({ ref }) => ref)).not.toContain(`preparation:${base}`)
})

test('two people who change it at once: the second is told, and nothing is written', async () => {
  await keep(syrup, [[`ingredient:${sugar}`, '600']])
  const opened = formulaMark({ version: 1 })
  expect(await keep(syrup, [[`ingredient:${sugar}`, '610']], {}, opened)).toMatchObject({ ok: true })
  expect(await keep(syrup, [[`ingredient:${sugar}`, '620']], {}, opened)).toEqual({
    ok: false,
    reason: 'saved-elsewhere',
  })
  expect(await cafe.db.preparationFormula.count()).toBe(2)
})

test('a batch is taken over as version 1: its inner batch becomes the preparation, its output the target', async () => {
  const [, outer = ''] = cafe.batchIds
  await cafe.db.preparation.update({ where: { id: syrup }, data: { keepsHours: 72, storageDeciC: 40 } })
  const steps = JSON.stringify([{ text: 'Simmer', minutes: 12 }])
  await cafe.db.preparationBatch.update({
    where: { id: outer },
    data: { outputMg: 180_000, brixHundredths: 5000, steps },
  })
  expect(await formulaFromBatch(cafe.world, cafe.owner, outer)).toEqual({ ok: true, value: syrup })
  const sheet = await readFormula(cafe.world, cafe.owner, syrup)
  expect(sheet?.newest.row).toMatchObject({
    version: 1,
    targetMg: 180_000,
    brixHundredths: 5000,
    keepsHours: 72,
    storageDeciC: 40,
    steps,
    inputs: [{ ingredientId: sugar }, { preparationId: base, ingredientId: null }],
  })
  expect(await formulaFromBatch(cafe.world, cafe.owner, outer)).toEqual({ ok: false, reason: 'has-formula' })
})

test('a batch is made by the formula for a mass, of the inner batch that must go first, and keeps which version it was', async () => {
  const [inner = ''] = cafe.batchIds
  const later = { id: 'later', cafeId: cafe.owner.cafeId, preparationId: base, number: 2, createdAt: cafe.world.now() }
  await cafe.db.preparationBatch.create({ data: { ...later, discardAt: new Date('2026-03-15T10:00:00Z') } })
  const steps = [{ text: 'Simmer', minutes: '20' }]
  const more = { target: '800', brix: '60', keepsHours: '48', steps }
  await keep(
    syrup,
    [
      [`ingredient:${sugar}`, '480'],
      [`preparation:${base}`, '520'],
    ],
    more,
  )
  const made = await readBarBatch(cafe.world, reader(), syrup, { grams: 1200, asLast: false }, true)
  // by hand: 1 200 g are one and a half times the target of 800 g
  expect(made).toMatchObject({
    from: { by: 'formula', number: 1, outputGrams: 800, steps: [{ text: 'Simmer', minutes: 20 }] },
    inputs: [
      { name: 'Quillberry sugar', grams: 720 },
      { name: 'Ombrelle base', grams: 780, lacking: false },
    ],
    targetGrams: 1200,
    brix: 60,
    keepsHours: 48,
  })
  expect((await readBarBatch(cafe.world, reader(), syrup, { grams: null, asLast: true }, true))?.from).toBeNull()
  // of two that are in date the one that goes first; the one without a date comes last
  const start = await readFormulaStart(cafe.world, cafe.owner, syrup)
  expect(start?.inputs.map(({ part, grams }) => [part, grams])).toEqual([
    [`ingredient:${sugar}`, 480],
    ['batch:later', 520],
  ])
  await cafe.db.preparationBatch.update({ where: { id: inner }, data: { discardAt: new Date('2026-03-01T10:00:00Z') } })
  await cafe.db.preparationBatch.update({
    where: { id: 'later' },
    data: { discardAt: new Date('2026-03-02T10:00:00Z') },
  })
  expect((await readFormulaStart(cafe.world, cafe.owner, syrup))?.inputs[1]).toMatchObject({ part: null })
  expect(
    (await readBarBatch(cafe.world, reader(), syrup, { grams: 1200, asLast: false }, true))?.inputs[1],
  ).toMatchObject({ lacking: true, grams: 780 })

  const inputs = [{ part: `ingredient:${sugar}`, amount: '480', unit: 'g' }]
  const sent = { inputs, output: '400', madeAt: '2026-03-14T10:00', formulaId: start?.row.id }
  const recorded = await recordBatch(cafe.world, cook(), syrup, BatchForm.parse(sent))
  if (!recorded.ok) throw new Error(recorded.reason)
  const row = await cafe.db.preparationBatch.findUniqueOrThrow({ where: { id: recorded.value } })
  // kept for the formula's 48 hours, not the preparation's own
  expect(row).toMatchObject({ formulaId: start?.row.id, discardAt: new Date('2026-03-16T10:00:00Z') })
  // the version of another preparation is no version of this one
  const wrong = await recordBatch(cafe.world, cook(), base, BatchForm.parse(sent))
  expect(
    wrong.ok && (await cafe.db.preparationBatch.findUniqueOrThrow({ where: { id: wrong.value } })).formulaId,
  ).toBeNull()
})

test('where nobody knows what a formula gives no mass is worked out, until a batch of it was weighed', async () => {
  await keep(syrup, [[`ingredient:${sugar}`, '500']])
  const asked = { grams: 900, asLast: false }
  expect(await readBarBatch(cafe.world, reader(), syrup, asked, true)).toMatchObject({
    from: { by: 'formula', outputGrams: null },
    inputs: [{ grams: 500 }],
    targetGrams: null,
  })
  const [{ id: formulaId } = { id: '' }] = await cafe.db.preparationFormula.findMany()
  const inputs = [{ part: `ingredient:${sugar}`, amount: '500', unit: 'g' }]
  await recordBatch(cafe.world, cook(), syrup, BatchForm.parse({ inputs, output: '450', formulaId }))
  // by hand: nine tenths came out, so 900 g take 1 000 g
  expect((await readBarBatch(cafe.world, reader(), syrup, asked, true))?.inputs).toMatchObject([
    { grams: expect.closeTo(1000, 6) },
  ])
})

test('what batches came to over time: in, out, Brix read or by weight, by whom and by which version', async () => {
  await keep(syrup, [[`ingredient:${sugar}`, '500']])
  const [{ id: formulaId } = { id: '' }] = await cafe.db.preparationFormula.findMany()
  const inputs = [{ part: `ingredient:${sugar}`, amount: '500', unit: 'g' }]
  await recordBatch(cafe.world, cook(), syrup, BatchForm.parse({ inputs, output: '450', brix: '61', formulaId }))
  await recordBatch(cafe.world, cook(), syrup, BatchForm.parse({ inputs, output: '500' }))
  const [first, second, third] = await readYields(cafe.world, reader(), syrup)
  // the café's own first batch was never weighed
  expect(first).toMatchObject({ number: 1, output: null, percent: null, brix: null, version: null })
  // by hand: 450 of 500 g are 90 %; 500 g of sugar in 500 g are 100 °Bx
  expect(second).toMatchObject({
    number: 2,
    by: 'Ottoline',
    version: 1,
    into: 500,
    output: 450,
    brix: { value: 61, isRead: true },
  })
  expect(second?.percent).toBeCloseTo(90, 9)
  expect(third).toMatchObject({ number: 3, percent: 100, brix: { value: 100, isRead: false }, version: null })
  expect(await readYields(cafe.world, { ...cafe.stranger, cafe: money }, syrup)).toEqual([])
})

test('infused and strained: the batch says what a gram kept back, and its formula and the next batch keep what is strained', async () => {
  const { cafeId } = cafe.owner
  const tea = { id: 'tea', cafeId, name: 'Zest tea', kind: 'infusion', createdAt: cafe.world.now() }
  await cafe.db.preparation.create({ data: tea })
  const water = { id: 'tap', cafeId, name: 'Tap', kind: 'water', createdAt: cafe.world.now() }
  await cafe.db.ingredient.create({ data: water })
  const inputs = (isStrainedOut?: 'on') => [
    { part: 'ingredient:tap', amount: '500', unit: 'g' },
    { part: `ingredient:${sugar}`, amount: '20', unit: 'g', isStrainedOut },
  ]
  const record = (typed: object) => recordBatch(cafe.world, cook(), 'tea', BatchForm.parse(typed))
  expect(await record({ inputs: inputs(), output: '440' })).toEqual({ ok: false, reason: 'nothing-strained' })
  const all = inputs('on').map((one) => ({ ...one, isStrainedOut: 'on' }))
  expect(await record({ inputs: all, output: '440' })).toEqual({ ok: false, reason: 'all-strained' })
  const made = await record({ inputs: inputs('on'), output: '440' })
  if (!made.ok) throw new Error(made.reason)
  const sheet = await readBatch(cafe.world, reader(), made.value)
  // by hand: (500 − 440) / 20
  expect(sheet?.row).toMatchObject({
    retentionMilli: 3000,
    inputs: [{ isStrainedOut: false }, { isStrainedOut: true }],
  })
  expect(sheet?.figures.infusion?.retention).toMatchObject({ known: true, value: expect.closeTo(3, 9) })
  expect(sheet?.keeping).toContain('7 days at most')
  expect(await formulaFromBatch(cafe.world, cafe.owner, made.value)).toMatchObject({ ok: true })
  expect((await readFormula(cafe.world, cafe.owner, 'tea'))?.newest.row).toMatchObject({
    retentionMilli: 3000,
    inputs: [{ isStrainedOut: false }, { isStrainedOut: true }],
  })
  // without a target it goes by what is kept back: twice the pot gives twice as much
  await keepFormula(cafe.world, cafe.owner, 'tea', FormulaForm.parse({ inputs: inputs('on'), retention: '3' }), null)
  const next = await readBarBatch(cafe.world, reader(), 'tea', { grams: 880, asLast: false }, true)
  expect(next?.inputs).toMatchObject([
    { grams: 1000, isStrainedOut: false },
    { grams: 40, isStrainedOut: true },
  ])
})

test('another café sees and writes none of it', async () => {
  await keep(syrup, [[`ingredient:${sugar}`, '600']])
  expect(await readFormula(cafe.world, cafe.stranger, syrup)).toBeNull()
  const sent = typed([[`ingredient:${sugar}`, '600']])
  expect(await keepFormula(cafe.world, cafe.stranger, syrup, sent, null)).toEqual({ ok: false, reason: 'gone' })
  expect(await formulaFromBatch(cafe.world, cafe.stranger, cafe.batchIds[0] ?? '')).toEqual({
    ok: false,
    reason: 'gone',
  })
  expect(await keep(syrup, [['ingredient:no-such', '10']])).toMatchObject({ ok: false, reason: 'part-gone' })
})
