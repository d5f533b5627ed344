import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { brixByMass, brixByVolume, brixOfHydrometer } from '@/lib/drink/brix'
import { sucroseDensity } from '@/lib/drink/density'

test('Brix does not depend on the size of the batch', () => {
  const grams = fc.double({ min: 0.1, max: 1e5, noNaN: true })
  fc.assert(
    fc.property(grams, grams, fc.double({ min: 0.1, max: 100, noNaN: true }), (s, w, size) => {
      expect(Math.abs(brixByMass(s * size, w * size) - brixByMass(s, w))).toBeLessThan(1e-9)
    }),
  )
})

test('a hydrometer read in a syrup of known density gives back its Brix, below and above the change of formula', () => {
  // Two published formulas meet: SPS-4 and the NBS polynomial; they agree to a few hundredths.
  for (const brix of [1, 10, 20, 30, 39, 45, 60, 80]) {
    const read = brixOfHydrometer(sucroseDensity(brix, 20) / sucroseDensity(0, 20))
    expect(Math.abs((read ?? 0) - brix)).toBeLessThan(0.06)
  }
})

test('water reads nothing, what floats or outweighs any syrup is refused', () => {
  expect(brixOfHydrometer(1)).toBeCloseTo(0, 2)
  expect(() => brixOfHydrometer(0.99)).toThrow('got 0.99')
  expect(brixOfHydrometer(1.7)).toBeNull()
})

test('nothing, or less than nothing, has no Brix', () => {
  expect(() => brixByMass(0, 0)).toThrow(RangeError)
  expect(() => brixByMass(-1, 5)).toThrow('got -1')
  expect(() => brixByVolume(1, 1, 0)).toThrow('bulk density must be above 0, got 0')
})
