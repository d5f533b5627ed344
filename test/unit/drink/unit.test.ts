import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { UNITS, convert, findUnit, gramsOf, requireUnit } from '@/lib/drink/unit'

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
