import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import {
  ICE_HEAT,
  MELTING_HEAT,
  WATER_HEAT,
  foodHeat,
  measuredHeatLeak,
  meltBalance,
  roomMelt,
  syrupHeat,
} from '@/lib/drink/ice'

const liquid = fc.record({
  grams: fc.double({ min: 1, max: 500, noNaN: true }),
  celsius: fc.double({ min: 0, max: 95, noNaN: true }),
  heat: fc.double({ min: 2.5, max: 4.2, noNaN: true }),
})
const ice = fc.double({ min: 0, max: 400, noNaN: true })
const cold = fc.double({ min: -25, max: 0, noNaN: true })

test('energy before is energy after, unless the ice is too cold for the drink', () => {
  fc.assert(
    fc.property(fc.array(liquid, { minLength: 1, maxLength: 6 }), ice, cold, (liquids, grams, celsius) => {
      const { melted, iceLeft, celsius: end } = meltBalance(liquids, grams, celsius)
      expect(Math.abs(melted + iceLeft - grams)).toBeLessThan(1e-9)
      const before = liquids.reduce((all, l) => all + l.grams * l.heat * l.celsius, 0) + grams * ICE_HEAT * celsius
      const capacity = liquids.reduce((all, l) => all + l.grams * l.heat, 0) + melted * WATER_HEAT
      const after = capacity * end + melted * MELTING_HEAT
      if (before >= 0) expect(Math.abs(before - after)).toBeLessThan(1e-6 * Math.max(1, before))
      else expect([melted, end]).toEqual([0, 0])
    }),
  )
})

test('warmer coffee never melts less, and the drink is never below 0 °C', () => {
  fc.assert(
    fc.property(liquid, ice, cold, (one, grams, celsius) => {
      const warmer = { ...one, celsius: one.celsius + 1 }
      const [a, b] = [meltBalance([one], grams, celsius), meltBalance([warmer], grams, celsius)]
      expect(b.melted).toBeGreaterThanOrEqual(a.melted)
      expect(a.celsius).toBeGreaterThanOrEqual(0)
    }),
  )
})

test('amounts at the end of what a computer can count cool nothing below 0 °C', () => {
  // the smallest number there is of ice, and of warmth six tenths of what melts it: their share rounds to all of it
  const { celsius } = meltBalance([{ grams: 1, celsius: 4e-322, heat: 2.5 }], 5e-324, 0)
  expect(celsius).toBeGreaterThanOrEqual(0)
})

test('without ice the drink keeps its own temperature', () => {
  expect(meltBalance([{ grams: 100, celsius: 40, heat: 4 }], 0, 0).celsius).toBeCloseTo(40, 12)
})

test('the room melts no more than there is, and a strained weight gives its heat leak back', () => {
  expect(roomMelt(3, 1000, 25, 0.35, 0)).toBe(3)
  expect(roomMelt(100, 0, 25, 0.35, 0)).toBe(0)
  expect(measuredHeatLeak(roomMelt(1000, 10, 25, 0.35, 0), 10, 25)).toBeCloseTo(0.35, 12)
})

test('warm ice, negative masses and impossible shares are refused', () => {
  expect(() => meltBalance([], 10, 1)).toThrow('ice is at 0 °C or colder, got 1')
  expect(() => meltBalance([], 0, 0)).toThrow(RangeError)
  expect(() => meltBalance([{ grams: -1, celsius: 1, heat: 4 }], 1, 0)).toThrow('got -1')
  expect(() => roomMelt(-1, 1, 1, 1, 0)).toThrow(RangeError)
  expect(() => measuredHeatLeak(1, 0, 25)).toThrow(RangeError)
  expect(() => syrupHeat(101, 20)).toThrow('got 101')
  expect(() => foodHeat(1.1)).toThrow('got 1.1')
})
