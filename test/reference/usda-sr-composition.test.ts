/**
 * Composition of the starter ingredients, as printed.
 * Printed   USDA Standard Reference tables, per 100 g: water, energy, protein, fat, sugars; weight of 1 US fl oz or cup.
 * Computed  60 ml of each milk in the drink, from the same tables.
 */
import { expect, test } from 'vitest'
import { STARTERS } from '@/lib/drink/composition'

const find = (id: string) => {
  const one = STARTERS.find((starter) => starter.id === id)
  if (!one) throw new Error(id)
  return one
}

test.each([
  ['whole-milk', '01077', 88.13, 61, 3.15, 3.25, 5.05],
  ['evaporated-milk', '01153', 74.04, 134, 6.81, 7.56, 10.04],
  ['condensed-milk', '01095', 27.16, 321, 7.91, 8.7, 54.4],
  ['soy-drink', '16139', 90.36, 43, 2.6, 1.47, 3.65],
  ['white-sugar', '19335', 0.02, 387, 0, 0, 99.8],
  ['brown-sugar', '19334', 1.34, 380, 0.12, 0, 97.02],
  ['honey', '19296', 17.1, 304, 0.3, 0, 82.12],
] as const)('%s is as printed under NDB %s', (id, ndb, water, energyKcal, protein, fat, sugars) => {
  const { composition, source } = find(id)
  expect(composition).toMatchObject({ water, energyKcal, protein, fat, sugars })
  expect(source).toContain(`NDB ${ndb}`)
})

test.each([
  ['whole-milk', 30.5 / 29.5735295625],
  ['half-and-half', 30.2 / 29.5735295625],
  ['evaporated-milk', 31.5 / 29.5735295625],
  ['condensed-milk', 38.2 / 29.5735295625],
  ['soy-drink', 30.6 / 29.5735295625],
  ['heavy-cream', 238 / 236.5882365],
  ['honey', 339 / 236.5882365],
  ['molasses', 337 / 236.5882365],
  ['coconut-milk', 226 / 236.5882365],
])('%s has the density of its household weight (USDA), to a tenth of a per cent', (id, density) => {
  expect(Math.abs((find(id).density ?? 0) / density - 1)).toBeLessThan(0.001)
})

/** Energy, protein and fat as read under these numbers; what was only remembered, or printed twice, says so or is missing. */
test.each([
  ['oat-drink', 'FDC 2257046', 48, 0.8, 2.8],
  ['soy-drink-unsweetened', 'FDC 175215', 33, 2.9, 1.6],
  ['almond-drink-unsweetened', 'FDC 174832', 15, null, 1.1],
] as const)('%s is as printed under %s, its sugars and density marked', (id, number, energyKcal, protein, fat) => {
  const { composition, source, edition, densityIsAssumed } = find(id)
  expect(composition).toMatchObject({ water: null, energyKcal, protein, fat, freeSugars: null, sweetness: null })
  expect(source).toContain(number)
  expect(edition).toContain('sugars from memory')
  expect(densityIsAssumed).toBe(true)
})

test('a coconut drink has no figure that nobody printed', () => {
  const { composition, densityIsAssumed } = find('coconut-drink')
  const { water, sugars, freeSugars, fat, protein, energyKcal } = composition
  expect([water, sugars, freeSugars, fat, protein, energyKcal]).toEqual([null, null, null, null, null, null])
  expect(densityIsAssumed).toBe(true)
})

test('60 ml of evaporated milk bring 63.9 g, 85.6 kcal, 4.83 g fat, 6.42 g lactose (computed from the tables)', () => {
  const { composition, density } = find('evaporated-milk')
  const grams = 60 * (density ?? 0)
  expect(Math.abs(grams - 63.9)).toBeLessThan(0.05)
  for (const [value, wanted, reach] of [
    [composition.energyKcal, 85.6, 0.05],
    [composition.fat, 4.83, 0.005],
    [composition.sugars, 6.42, 0.005],
  ] as const) {
    expect(Math.abs((grams * (value ?? 0)) / 100 - wanted)).toBeLessThan(reach)
  }
})
