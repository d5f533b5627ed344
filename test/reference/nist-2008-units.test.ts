/**
 * Sizes of units.
 * Printed   NIST Handbook 44, Appendix C: US fluid ounce 29.5735295625 ml, US pint 473.176473 ml, US cup 236.5882365 ml,
 *           imperial fluid ounce 28.4130625 ml, avoirdupois ounce 28.349523125 g; all exact.
 * Made      make/nist-2008-units.py: every pair of units in rational arithmetic from the definitions.
 */
import { expect, test } from 'vitest'
import { UNITS, convert, requireUnit } from '@/lib/drink/unit'
import exact from './data/nist-2008-units.json'

test.each([
  ['us-fl-oz', 29.5735295625],
  ['us-pint', 473.176473],
  ['us-cup', 236.5882365],
  ['us-tbsp', 14.78676478125],
  ['us-tsp', 4.92892159375],
  ['imp-fl-oz', 28.4130625],
  ['imp-pint', 568.26125],
  ['avoirdupois-oz', 28.349523125],
  ['lb', 453.59237],
])('%s is worth what the handbook prints', (id, size) => {
  expect(Math.abs(requireUnit(id).size / size - 1)).toBeLessThan(1e-12)
})

test('every unit goes into every other as its definition says, to 1e-12', () => {
  expect(exact.cases.length).toBe(UNITS.length ** 2)
  for (const { amount, from, to, density, value } of exact.cases) {
    const got = convert(amount, from, to, density)
    expect(got.ok && Math.abs(got.value / value - 1)).toBeLessThan(exact.within)
  }
})

test('16 US fl oz is the 473 ml vessel, 16 imperial ones are 4 % smaller than it (NIST; printed to five decimals)', () => {
  const ml = (amount: number, unit: string) => {
    const got = convert(amount, unit, 'ml', null)
    return got.ok ? got.value : Number.NaN
  }
  expect(Math.abs(ml(16, 'us-fl-oz') - 473.17647)).toBeLessThan(5e-6)
  expect(Math.abs(ml(12, 'us-fl-oz') - 354.88235)).toBeLessThan(5e-6)
  expect(Math.abs(ml(16, 'imp-fl-oz') - 454.609)).toBeLessThan(5e-6)
  expect(Math.abs(ml(1, 'us-fl-oz') / ml(1, 'imp-fl-oz') - 1.0408)).toBeLessThan(5e-5)
})
