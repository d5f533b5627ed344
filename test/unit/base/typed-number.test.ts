import fc from 'fast-check'
import { expect, test } from 'vitest'
import { printNumber, readNumber, type NumberField } from '@/lib/base/typed-number'

// Fields as the house has them. Expected numbers are what a person of that way of writing means; nothing is computed.
const grams: NumberField = { least: 0, most: 1_000_000, step: 0.001, aboveZero: true }
const density: NumberField = { least: 0.2, most: 3, step: 0.000001 }
const percent: NumberField = { least: 0, most: 100, step: 0.01 }
const degrees: NumberField = { least: -40, most: 100 }
const euro: NumberField = { least: 0, most: 21_474_836.47, step: 0.01, decimals: 2 }
const dong: NumberField = { least: 0, most: 2_147_483_647, step: 1, decimals: 0 }
const dinar: NumberField = { least: 0, most: 2_147_483.647, step: 0.001, decimals: 3 }

test.each<[string, NumberField, number]>([
  ['60', grams, 60],
  ['12,5', grams, 12.5],
  ['12.5', grams, 12.5],
  [' 60 ', grams, 60],
  [',5', grams, 0.5],
  ['20,', grams, 20],
  ['0,125', grams, 0.125],
  ['0.125', grams, 0.125],
  ['1500', grams, 1500],
  ['1.1250', grams, 1.125],
  ['1/2', grams, 0.5],
  ['1 1/2', grams, 1.5],
  ['1½', grams, 1.5],
  ['½', grams, 0.5],
  ['1 500', grams, 1500],
  ['1\u00a0500', grams, 1500],
  ['1\u202f500,25', grams, 1500.25],
  ['12 345', grams, 12_345],
  ['1’500', grams, 1500],
  ["1'234.5", grams, 1234.5],
  ['1.234,56', grams, 1234.56],
  ['1,234.5', grams, 1234.5],
  ['12.345.678', dong, 12_345_678],
  ['1,00,000', grams, 100_000],
  ['1,031', density, 1.031],
  ['1.031', density, 1.031],
  ['1,433', density, 1.433],
  ['1,500', percent, 1.5],
  ['12,345', percent, 12.345],
  ['−18', degrees, -18],
  ['–0,5', degrees, -0.5],
  ['-4', degrees, -4],
  ['0', euro, 0],
  ['3.50', euro, 3.5],
  ['1500.00', euro, 1500],
  ['1.500,00', euro, 1500],
  ['450.000', dong, 450_000],
  ['450,000', dong, 450_000],
  ['1.200.000', dong, 1_200_000],
  ['1500.00', dong, 1500],
  ['1,5', dinar, 1.5],
  ['1.5000', dinar, 1.5],
])('"%s" has one reading in its field', (typed, field, value) => {
  expect(readNumber(typed, field)).toEqual({ ok: true, value })
})

test.each<[string, NumberField, string, string]>([
  ['1,500', euro, '1.5', '1500'],
  ['1.500', euro, '1.5', '1500'],
  ['1,500', grams, '1.5', '1500'],
  ['1.500', grams, '1.5', '1500'],
  ['1.125', grams, '1.125', '1125'],
  ['450.000', euro, '450', '450000'],
  ['2,750', dinar, '2.75', '2750'],
])('"%s" is asked, for it can be %s or %s', (typed, field, less, more) => {
  expect(readNumber(typed, field)).toEqual({ ok: false, reason: 'two-readings', detail: { less, more } })
})

test.each<[string, NumberField, string]>([
  ['', grams, 'empty'],
  ['   ', grams, 'empty'],
  ['a splash', grams, 'not-a-number'],
  ['12g', grams, 'not-a-number'],
  ['1e3', grams, 'not-a-number'],
  ['1/0', grams, 'not-a-number'],
  ['.', grams, 'not-a-number'],
  ['-', degrees, 'not-a-number'],
  ['1 50', grams, 'not-a-number'],
  ['1,5,0', grams, 'not-a-number'],
  ['1.234.56', grams, 'not-a-number'],
  ['0', grams, 'not-above-zero'],
  ['-3', grams, 'not-above-zero'],
  ['−3', grams, 'not-above-zero'],
  ['0,0', grams, 'not-above-zero'],
  ['0.0004', grams, 'rounds-to-nothing'],
  ['0.004', percent, 'rounds-to-nothing'],
  ['2500', density, 'too-much'],
  ['0,1', density, 'too-little'],
  ['-1', euro, 'too-little'],
  ['101', percent, 'too-much'],
  ['2147483648', dong, 'too-much'],
  ['450000,5', dong, 'too-many-decimals'],
  ['1/2', dong, 'too-many-decimals'],
  ['3.4999', euro, 'too-many-decimals'],
])('"%s" is refused: %#', (typed, field, reason) => {
  expect(readNumber(typed, field)).toMatchObject({ ok: false, reason })
})

const anyField = fc.constantFrom(grams, density, percent, degrees, euro, dong, dinar)

test('what a field prints, it reads back', () => {
  fc.assert(
    fc.property(anyField, fc.double({ min: 0, max: 1, noNaN: true }), (field, share) => {
      const step = field.step ?? 0.1
      const least = field.aboveZero ? step : field.least
      const value = Number((Math.round((least + share ** 6 * (field.most - least)) / step) * step).toFixed(6))
      expect(readNumber(printNumber(value, field), field)).toEqual({ ok: true, value })
    }),
    { numRuns: 5000 },
  )
})

test('thousands are exactly where two readings hide: those are printed so that they are not asked', () => {
  expect(printNumber(1.125, grams)).toBe('1.1250')
  expect(printNumber(1.5, dinar)).toBe('1.5000')
  expect(printNumber(1.031, density)).toBe('1.031')
  expect(printNumber(-0.5, degrees)).toBe('−0.5')
  expect(printNumber(3.5, euro)).toBe('3.50')
})

test('whatever is typed, the answer is a number the field can hold, or a reason', () => {
  const text = fc.oneof(fc.string(), fc.stringMatching(/^[-−]?[\d.,' /½]{0,12}$/))
  fc.assert(
    fc.property(text, anyField, (typed, field) => {
      const read = readNumber(typed, field)
      if (read.ok) expect(read.value >= field.least && read.value <= field.most).toBe(true)
    }),
    { numRuns: 5000 },
  )
})
