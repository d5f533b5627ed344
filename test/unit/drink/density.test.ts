import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { brixOfDensity, sucroseDensity, waterDensity } from '@/lib/drink/density'

const celsius = fc.double({ min: 0, max: 80, noNaN: true })
const brix = fc.double({ min: 0, max: 84, noNaN: true })

test('no sugar is water', () => {
  fc.assert(
    fc.property(celsius, (t) => {
      expect(sucroseDensity(0, t)).toBe(waterDensity(t))
    }),
  )
})

test('more sugar is heavier at every temperature', () => {
  fc.assert(
    fc.property(celsius, brix, fc.double({ min: 0.01, max: 10, noNaN: true }), (t, b, more) => {
      expect(sucroseDensity(b + more, t)).toBeGreaterThan(sucroseDensity(b, t))
    }),
  )
})

test('density leads back to its Brix', () => {
  fc.assert(
    fc.property(celsius, brix, (t, b) => {
      const back = brixOfDensity(sucroseDensity(b, t), t)
      expect(back === null ? Number.NaN : Math.abs(back - b)).toBeLessThan(1e-6)
    }),
  )
})

test('a density no sucrose solution has gives null', () => {
  expect(brixOfDensity(990, 20)).toBeNull()
  expect(brixOfDensity(1700, 20)).toBeNull()
  expect(brixOfDensity(Number.NaN, 20)).toBeNull()
})

test('Brix and temperature outside the formula are refused with the value', () => {
  expect(() => sucroseDensity(101, 20)).toThrow('Brix must lie between 0 and 100, got 101')
  expect(() => sucroseDensity(-1, 20)).toThrow(RangeError)
  expect(() => sucroseDensity(50, 101)).toThrow('got 101')
  expect(() => waterDensity(-1)).toThrow(RangeError)
})
