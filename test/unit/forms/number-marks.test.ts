import { expect, test } from 'vitest'
import type { ZodType } from 'zod'
import { IngredientForm, priceForm } from '@/lib/forms/ingredient-form'
import { LadderForm } from '@/lib/forms/ladder-form'
import { keptAmount, printTyped } from '@/lib/forms/number-fields'
import { BatchForm, PreparationForm, vesselForm } from '@/lib/forms/preparation-form'
import { recipeMoneyForm } from '@/lib/forms/recipe-form'
import { draftBuild, type DraftGround } from '@/lib/forms/trial-draft'
import { TrialForm } from '@/lib/forms/trial-form'

const ingredient = { name: 'Whole milk', kind: 'milk', form: 'liquid' }
const batch = { inputs: [{ part: 'ingredient:1', amount: '500' }] }
const trial = { name: 'A', method: 'drip' }
const line = { part: 'ingredient:1', role: 'milk' }

const problemsOf = (form: ZodType, sent: unknown): Record<string, string> => {
  const read = form.safeParse(sent)
  return read.success ? {} : Object.fromEntries(read.error.issues.map((issue) => [issue.path.join('.'), issue.message]))
}

test('a density by comma is a density: a thousands mark makes no sense in it', () => {
  expect(IngredientForm.parse({ ...ingredient, density: '1,031' })).toMatchObject({ density: { value: 1.031 } })
  expect(BatchForm.parse({ ...batch, density: '1,246' })).toMatchObject({ density: { value: 1.246 } })
  const sheet = TrialForm.parse({ ...trial, lines: [{ ...line, amount: '60', unit: 'ml', density: '1,031' }] })
  expect(sheet.lines[0]?.density?.value).toBe(1.031)
})

test('a percentage and a temperature by comma are read', () => {
  expect(TrialForm.parse({ ...trial, lines: [{ ...line, amount: '60' }], strength: '1,375' }).strength).toBe(1.375)
  expect(PreparationForm.parse({ name: 'A', kind: 'syrup', storage: '−0,5' }).storage).toBe(-0.5)
})

test.each(['1,500', '1.500'])('an amount of %s is asked, with both readings in words', (typed) => {
  const asked = problemsOf(TrialForm, { ...trial, lines: [{ ...line, amount: typed }] })['lines.0.amount']
  expect(asked).toBe(`“${typed}” can be read twice: one point five, or one thousand five hundred? Write 1.5 or 1500.`)
  expect(problemsOf(BatchForm, { inputs: [{ part: 'ingredient:1', amount: typed }] })).toHaveProperty([
    'inputs.0.amount',
  ])
  expect(problemsOf(LadderForm, { vary: 'dose', line: '1', levels: `20 ${typed}` })).toHaveProperty(['levels'])
})

test('what is offered to be written is itself read', () => {
  const asked = problemsOf(TrialForm, { ...trial, lines: [{ ...line, amount: '1,125' }] })['lines.0.amount'] ?? ''
  const [, less = '', more = ''] = /Write (\S+) or (\S+)\.$/.exec(asked) ?? []
  const read = (amount: string) => TrialForm.parse({ ...trial, lines: [{ ...line, amount }] }).lines[0]?.amount?.value
  expect([read(less), read(more)]).toEqual([1.125, 1125])
})

test('grouped thousands with a decimal mark have one reading', () => {
  const sheet = TrialForm.parse({ ...trial, lines: [{ ...line, amount: '1.234,56' }] })
  expect(sheet.lines[0]?.amount).toEqual({ value: 1234.56, typed: '1.234,56' })
})

test('a density no food has is refused at its line (2500 g/ml)', () => {
  const sent = { ...trial, lines: [{ ...line, amount: '90', unit: 'ml', density: '2500' }] }
  expect(problemsOf(TrialForm, sent)).toEqual({
    'lines.0.density': 'A food weighs between 0.1 and 3 g per ml.',
  })
})

test.each([
  ['weighed', '0.0004'],
  ['tolerance', '0,0004'],
])('a %s of %s g would be kept as nothing, and is refused', (field, typed) => {
  const sent = { ...trial, lines: [{ ...line, amount: '60', [field]: typed }] }
  expect(problemsOf(TrialForm, sent)).toEqual({
    [`lines.0.${field}`]: 'This is too little to be kept: 0.001 at least.',
  })
})

test('a share below a hundredth of a percent would be kept as nothing, and is refused', () => {
  const sent = { ...trial, lines: [{ ...line, amount: '60' }], extraction: '0.001' }
  expect(problemsOf(TrialForm, sent)).toEqual({ extraction: 'This is too little to be kept: 0.01 at least.' })
})

test('seconds are whole', () => {
  const sent = { ...trial, lines: [{ ...line, amount: '60' }], steps: [{ text: 'Wait', seconds: '1.5' }] }
  expect(problemsOf(TrialForm, sent)).toEqual({ 'steps.0.seconds': 'A whole number, please.' })
})

const euro = { currency: 'EUR', currencyDigits: 2 }
const dong = { currency: 'VND', currencyDigits: 0 }
const price = { price: '3.50', pack: '1', packUnit: 'kg' }

test.each([
  ['1,500', 'one point five, or one thousand five hundred? Write 1.50 or 1500.00.'],
  ['1.500', 'one point five, or one thousand five hundred? Write 1.50 or 1500.00.'],
])('a price of %s in a currency with decimals is asked', (typed, words) => {
  const asked = `“${typed}” can be read twice: ${words}`
  expect(problemsOf(priceForm(euro), { ...price, price: typed })).toEqual({ price: asked })
  expect(problemsOf(recipeMoneyForm(euro), { price: typed, packaging: typed, fixed: typed })).toEqual({
    price: asked,
    packaging: asked,
    fixed: asked,
  })
})

test('in a currency without decimals every mark is a thousands mark, and decimals are refused', () => {
  expect(priceForm(dong).parse({ ...price, price: '450.000' }).price).toBe(450_000)
  expect(problemsOf(priceForm(dong), { ...price, price: '450000,5' })).toEqual({ price: 'VND has no decimals.' })
  expect(problemsOf(priceForm(euro), { ...price, price: '3.4999' })).toEqual({ price: 'EUR has 2 decimals.' })
})

test('what a café needs can be typed in any currency, up to what one figure holds', () => {
  // 2³¹ − 1 = 2147483647 smallest units
  expect(recipeMoneyForm(dong).parse({ price: '1.200.000', fixed: '60.000.000' })).toMatchObject({
    price: 1_200_000,
    fixed: 60_000_000,
  })
  expect(problemsOf(recipeMoneyForm(dong), { fixed: '2147483648' })).toEqual({
    fixed: 'At most 2,147,483,647 VND can be kept in one figure.',
  })
  expect(problemsOf(recipeMoneyForm(euro), { fixed: '21474836,48' })).toEqual({
    fixed: 'At most 21,474,836.47 EUR can be kept in one figure.',
  })
})

test('a usable share that would be kept as nothing is refused', () => {
  expect(problemsOf(priceForm(euro), { ...price, usable: '0.001' })).toEqual({
    usable: 'This is too little to be kept: 0.01 at least.',
  })
  expect(problemsOf(priceForm(euro), { ...price, usable: '0' })).toEqual({ usable: 'Some of it must be usable.' })
})

test('the figures that follow the typing read a number as saving reads it', () => {
  const form = new FormData()
  const typed = {
    part: 'milk',
    role: 'milk',
    amount: '1.234,5',
    unit: 'ml',
    density: '1,031',
    densityFor: 'milk',
    weighed: '1,500',
  }
  for (const [name, value] of Object.entries(typed)) form.set(`lines[0].${name}`, value)
  form.set('iceTemperature', '−0,5')
  const ground = {
    parts: [{ ref: 'milk', name: 'Milk', kind: 'milk', form: 'liquid', density: null }],
    levels: [],
    alternatives: [],
    vessels: [],
    money: {},
  } as unknown as DraftGround
  const draft = draftBuild(form, ground)
  // 1234.5 ml × 1.031 g/ml
  expect(draft.lines[0]?.targetGrams).toBeCloseTo(1272.7695, 9)
  expect(draft.lines[0]?.weighedGrams).toBeNull()
  expect(draft.iceTemperature).toBe(-0.5)
})

test('an amount kept by an earlier version is read and shown as it was meant then', () => {
  expect([keptAmount('1.125'), keptAmount('1/2'), keptAmount('1.234,5'), keptAmount('')]).toEqual([
    1.125,
    0.5,
    1234.5,
    null,
  ])
  expect([printTyped('1.125'), printTyped('1/2'), printTyped('60')]).toEqual(['1.1250', '1/2', '60'])
})

test('an amount from a page of another currency is refused', () => {
  const asked = 'The café counts in VND since this page was opened, not in EUR. Load it again.'
  expect(problemsOf(priceForm(dong), { ...price, price: '350', currency: 'EUR' })).toEqual({ price: asked })
  expect(problemsOf(recipeMoneyForm(dong), { price: '350', currency: 'EUR' })).toEqual({ price: asked })
  const glass = { name: 'Glass', brim: '400', pack: '14', currency: 'EUR' }
  expect(problemsOf(vesselForm(dong), glass)).toEqual({ pack: asked })
  expect(problemsOf(vesselForm(dong), { ...glass, currency: 'VND' })).toEqual({})
})
