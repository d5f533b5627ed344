/**
 * The iced coffee of common practice, whole: 120 g of coffee at 2.057 %, 60 ml evaporated milk, 60 ml one-to-one syrup,
 * 200 g of ice at −10 °C.
 * Computed  from the cited balances, worked outside this code: 458.2 ml built; coffee solids 0.958 % before melt, 0.832 %
 *           poured cooled (22 °C), 0.630 % poured hot (85 °C); sugar in the liquid 14.3 %; energy about 230 kcal.
 * Tolerance covers the heat of the milk: 3.85 J/(g·K) there, from its water content here (half a gram of ice).
 */
import { expect, test } from 'vitest'
import { computeBuild } from '@/lib/drink/build'
import type { Figure } from '@/lib/drink/figure'
import { aBatch, aLine, aTrial, ice, per100, sugar, water } from '../support/drink-lines'

const value = (one: Figure) => (one.known ? one.value : Number.NaN)
const within = (got: Figure, wanted: number, reach: number) => expect(Math.abs(value(got) - wanted)).toBeLessThan(reach)

const drink = (coffeeTemperature: number) =>
  computeBuild(
    aTrial(
      [
        aLine({
          name: 'Coffee',
          kind: 'coffee',
          targetGrams: 120,
          temperature: null,
          composition: per100({ coffeeSolids: 2.057, water: 97.943 }),
        }),
        aLine({
          name: 'Evaporated milk',
          kind: 'milk',
          targetGrams: 63.9,
          density: 1.065,
          temperature: 5,
          composition: per100({ water: 74.04, sugars: 10.04, energyKcal: 134, fat: 7.56, protein: 6.81 }),
        }),
        aLine({
          name: 'Syrup',
          kind: 'sweetener',
          targetGrams: 73.8,
          temperature: 22,
          preparation: aBatch([sugar(500), water(500)]),
        }),
        ice(200),
      ],
      { coffeeTemperature, iceTemperature: -10, vessel: { name: '16 US fl oz', brimMl: 473.176473, fillMl: null } },
    ),
  )

test('it fits its vessel with 15 ml left', () => {
  const { volume, roomToBrim, fit } = drink(85)
  within(volume, 458.2, 0.15)
  within(roomToBrim, 15, 0.15)
  expect(fit).toBe('fits')
})

test('poured hot it melts 134 g of ice, poured cooled 39 g', () => {
  within(drink(85).iceMelted, 134.1, 0.7)
  within(drink(22).iceMelted, 39.2, 0.7)
})

test('poured hot it is 24 % weaker in the glass than poured cooled', () => {
  within(drink(85).solidsBeforeMelt, 0.958, 0.001)
  within(drink(22).solidsAfterMelt, 0.832, 0.002)
  within(drink(85).solidsAfterMelt, 0.63, 0.002)
  expect(value(drink(85).solidsAfterMelt) / value(drink(22).solidsAfterMelt)).toBeCloseTo(0.757, 2)
})

test('its syrup brings 74 % of the FDA figure, and with the milk about 230 kcal', () => {
  const { shares, energy, fat } = drink(85)
  within(shares.fda, 73.8, 0.1)
  within(energy, 230, 2)
  within(fat, 4.83, 0.005)
})
