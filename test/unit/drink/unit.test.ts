import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { UNITS, convert, findUnit, gramsOf, parseAmount, requireUnit } from '@/lib/drink/unit'

const unit = fc.constantFrom(...UNITS.map(({ id }) => id))
const amount = fc.double({ min: 1e-6, max: 1e6, noNaN: true })
const density = fc.double({ min: 0.2, max: 1.6, noNaN: true })

test('an amount sent to any unit and back is the same to 1e-12', () => {
  fc.assert(
    fc.property(amount, unit, unit, density, (start, from, to, rho) => {
      const there = convert(start, from, to, rho)
      const back = there.ok ? convert(there.value, to, from, rho) : there
      expect(back.ok && Math.abs(back.value / start - 1)).toBeLessThan(1e-12)
    }),
  )
})

test('twice the amount is twice the grams', () => {
  fc.assert(
    fc.property(amount, unit, density, (start, from, rho) => {
      const one = gramsOf(start, from, rho)
      const two = gramsOf(2 * start, from, rho)
      expect(one.ok && two.ok && Math.abs(two.value / one.value - 2)).toBeLessThan(1e-12)
    }),
  )
})

test('a volume without a density has no grams, a mass needs none', () => {
  expect(gramsOf(60, 'ml', null)).toEqual({ ok: false, reason: 'density-missing' })
  expect(gramsOf(2, 'kg', null)).toEqual({ ok: true, value: 2000 })
})

test('no ounce and no spoon is shown without its kind', () => {
  for (const { id, shown } of UNITS) {
    if (id.includes('oz')) expect(shown).toMatch(/US|imp|mass/)
    if (/tsp|tbsp/.test(id)) expect(shown).toMatch(/US|\d ml/)
  }
})

test('an unknown unit is null when sought and refused when required', () => {
  expect(findUnit('oz')).toBeNull()
  expect(() => requireUnit('oz')).toThrow(RangeError)
  expect(() => convert(1, 'g', 'ml', 0)).toThrow('density must be above 0, got 0')
  expect(() => convert(Number.NaN, 'g', 'ml', 1)).toThrow(RangeError)
})

test.each([
  ['12,5', 12.5],
  ['12.5', 12.5],
  [' 60 ', 60],
  [',5', 0.5],
  ['0,125', 0.125],
  ['1.125', 1.125],
  ['1/2', 0.5],
  ['1 1/2', 1.5],
  ['1½', 1.5],
  ['½', 0.5],
  ['1500', 1500],
])('"%s" is read as %d', (typed, value) => {
  expect(parseAmount(typed)).toEqual({ ok: true, value })
})

test.each([
  ['', 'empty'],
  ['   ', 'empty'],
  ['a splash', 'not-a-number'],
  ['12g', 'not-a-number'],
  ['1e3', 'not-a-number'],
  ['1/0', 'not-a-number'],
  ['.', 'not-a-number'],
  ['1,500', 'thousands-unclear'],
  ['1 500', 'thousands-unclear'],
  ['1.234,5', 'thousands-unclear'],
  ['1,234.5', 'thousands-unclear'],
  ['0', 'not-above-zero'],
  ['-3', 'not-above-zero'],
  ['−3', 'not-above-zero'],
  ['0,0', 'not-above-zero'],
])('"%s" is refused as %s', (typed, reason) => {
  expect(parseAmount(typed)).toEqual({ ok: false, reason })
})

test('whatever is typed, the answer is a number above zero or a reason', () => {
  fc.assert(
    fc.property(fc.string(), (typed) => {
      const read = parseAmount(typed)
      if (read.ok) expect(read.value > 0 && Number.isFinite(read.value)).toBe(true)
    }),
  )
})
