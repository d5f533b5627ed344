/**
 * Ice in a drink.
 * Made      make/ice-heat-balance.py: enthalpy against temperature, root by Brent's method, 144 drinks, and as they stand
 *           5, 10 and 20 minutes later.
 * Published 100 g of water at 79.7 °C melts 100 g of ice (333.55 / 4.186); milk 3.85, syrup of 50 Brix 3.00 J/(g·K).
 * Computed  from the cited balance: the table of the drink of 120 g coffee, 60 ml milk, 60 ml syrup, 200 g ice.
 * Common practice, no source   heat leak 0.35 W/K, 25 °C.
 */
import { expect, test } from 'vitest'
import { meltBalance, roomMelt, syrupHeat } from '@/lib/drink/ice'
import exact from './data/ice-heat-balance.json'

const drink = (coffee: number) => [
  { grams: 120, celsius: coffee, heat: 4.186 },
  { grams: 63.9, celsius: coffee < 22 ? coffee : 5, heat: 3.85 },
  { grams: 73.8, celsius: coffee < 22 ? coffee : 22, heat: 3.0 },
]

test('it agrees with the root of the enthalpy, melting some, all or none', () => {
  const ends = new Set<string>()
  for (const { liquids, ice, cold, melted, celsius } of exact.cases) {
    const warm = liquids.map(([grams = 0, t = 0, heat = 0]) => ({ grams, celsius: t, heat }))
    const got = meltBalance(warm, ice, cold)
    expect(Math.abs(got.melted - melted)).toBeLessThan(exact.within)
    expect(Math.abs(got.celsius - celsius)).toBeLessThan(exact.within)
    ends.add(melted === 0 ? 'none' : melted === ice ? 'all' : 'some')
  }
  expect(ends).toEqual(new Set(['none', 'some', 'all']))
})

test('what the room lets in first warms ice that the drink could not', () => {
  const cold: number[] = []
  for (const { liquids, ice, cold: below, stood } of exact.cases) {
    const warm = liquids.map(([grams = 0, t = 0, heat = 0]) => ({ grams, celsius: t, heat }))
    const { melted, iceLeft, lacking } = meltBalance(warm, ice, below)
    for (const [minutes = 0, grams = 0] of stood) {
      expect(Math.abs(melted + roomMelt(iceLeft, minutes, 25, 0.35, lacking) - grams)).toBeLessThan(exact.within)
      if (lacking > 0) cold.push(grams)
    }
  }
  expect(cold.some((grams) => grams === 0)).toBe(true)
  expect(cold.some((grams) => grams > 0)).toBe(true)
})

test.each([
  [85, 0, 146.3],
  [85, -10, 134.1],
  [85, -18, 124.2],
  [60, 0, 108.7],
  [60, -10, 96.4],
  [60, -18, 86.6],
  [22, 0, 51.5],
  [22, -10, 39.2],
  [22, -18, 29.3],
  [5, 0, 14.6],
  [5, -10, 2.3],
  [5, -18, 0],
])('coffee at %d °C on ice at %d °C melts %d g (computed from the cited balance)', (coffee, cold, melted) => {
  expect(Math.abs(meltBalance(drink(coffee), 200, cold).melted - melted)).toBeLessThan(0.15)
})

test('hot water at 79.7 °C melts its own weight of ice', () => {
  const { melted, celsius } = meltBalance([{ grams: 100, celsius: 79.7, heat: 4.186 }], 100, 0)
  expect(Math.abs(melted - 100)).toBeLessThan(0.05)
  expect(Math.abs(celsius)).toBeLessThan(0.05)
})

test('240 g at 90 °C on 100 g of ice ends at 40.1 °C (computed from the cited balance)', () => {
  expect(Math.abs(meltBalance([{ grams: 240, celsius: 90, heat: 4.186 }], 100, 0).celsius - 40.1)).toBeLessThan(0.05)
})

test('syrup of 50 and 66.7 Brix holds 3.00 and 2.61 J/(g·K) (computed from the published formula)', () => {
  expect(Math.abs(syrupHeat(50, 20) - 3.0)).toBeLessThan(0.01)
  expect(Math.abs(syrupHeat(66.7, 20) - 2.61)).toBeLessThan(0.01)
})

test('a room of 25 °C melts 1.57 g a minute through 0.35 W/K (common practice, no source)', () => {
  expect(Math.abs(roomMelt(1000, 1, 25, 0.35, 0) - 1.57)).toBeLessThan(0.005)
  expect(Math.abs(roomMelt(1000, 20, 25, 0.35, 0) - 32)).toBeLessThan(0.6)
})
