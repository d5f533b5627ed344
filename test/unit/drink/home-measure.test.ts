import { expect, test } from 'vitest'
import { homeCups, homeMeasure } from '@/lib/drink/home-measure'

// Granulated sugar 4.2 g a teaspoon: USDA household weights, in the trade's table.
test('level teaspoons to a quarter, of a spoon that was weighed', () => {
  expect(homeMeasure(8.4, 4200)).toEqual({ spoons: 2, grams: expect.closeTo(8.4, 9) })
  // by hand: 10 / 4.2 = 2.38, the nearest quarter is 2.5, and 2.5 · 4.2 = 10.5 g
  expect(homeMeasure(10, 4200)).toEqual({ spoons: 2.5, grams: expect.closeTo(10.5, 9) })
})

test('nothing is told in spoons below 2 g, or of a spoon that nobody weighed', () => {
  expect(homeMeasure(1.99, 4200)).toBeNull()
  expect(homeMeasure(2, 4200)).toMatchObject({ spoons: 0.5 })
  expect(homeMeasure(20, null)).toBeNull()
  expect(homeMeasure(20, 0)).toBeNull()
  expect(homeMeasure(Number.NaN, 4200)).toBeNull()
  // by hand: 2 / 20 = 0.1: no quarter of a spoon
  expect(homeMeasure(2, 20_000)).toBeNull()
})

// NIST Handbook 44, appendix C: a cup is 236.588 ml
test('quarters of a US cup, where one is no more than 5 % off', () => {
  expect(homeCups(236.588)).toBe(1)
  expect(homeCups(177.44)).toBe(0.75)
  // by hand: 62 ml is 0.262 cups; a quarter, 59.15 ml, is 4.6 % less; of 62.5 ml it is 5.4 % less
  expect(homeCups(62)).toBe(0.25)
  expect(homeCups(62.5)).toBeNull()
  expect(homeCups(20)).toBeNull()
  expect(homeCups(Number.NaN)).toBeNull()
})
