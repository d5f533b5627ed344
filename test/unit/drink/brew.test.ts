import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import * as brew from '@/lib/drink/brew'

const dose = fc.double({ min: 1, max: 1000, noNaN: true })
const ratio = fc.double({ min: 4, max: 25, noNaN: true })
const kept = fc.double({ min: 0, max: 3.5, noNaN: true })
const extraction = fc.double({ min: 0.05, max: 0.3, noNaN: true })
const near = (a: number, b: number) => expect(Math.abs(a - b)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(b)))

test('the dose for a beverage makes that beverage, and its retention is measured back', () => {
  fc.assert(
    fc.property(dose, ratio, kept, (d, r, k) => {
      const beverage = brew.beverageMass(r * d, d, k)
      near(brew.doseForBeverage(beverage, r, 'water-in', k), d)
      near(brew.measuredRetention(r * d, beverage, d), k)
      near(brew.doseForBeverage(r * d, r, 'beverage-out', k), d)
    }),
  )
})

test('strength and extraction are each other’s inverse, in immersion and in percolation', () => {
  fc.assert(
    fc.property(dose, ratio, extraction, (d, r, e) => {
      near(brew.immersionExtraction(brew.immersionStrength(e, d, r * d), r * d, d), e)
      near(brew.percolationExtraction(brew.percolationStrength(e, d, r * d), r * d, d), e)
    }),
  )
})

test('the mixed formula is percolation when the last drops are water, immersion when they are as strong as the cup', () => {
  fc.assert(
    fc.property(dose, ratio, kept, extraction, (d, r, k, e) => {
      const water = r * d
      const t = brew.immersionStrength(e, d, water)
      const beverage = water - k * d
      near(brew.mixedExtraction(t, 0, beverage, d, water), brew.percolationExtraction(t, beverage, d))
      near(brew.mixedExtraction(t, t, beverage, d, water), brew.immersionExtraction(t, water, d))
    }),
  )
})

test('added water keeps the solids', () => {
  near(brew.bypassStrength(0.02, 100, 100) * 200, 0.02 * 100)
})

test('a ratio not above the retention is refused, in either direction', () => {
  expect(() => brew.doseForBeverage(100, 2, 'water-in', 2)).toThrow('must be above the retention 2, got 2')
  expect(() => brew.beverageMass(20, 10, 2)).toThrow('got 20')
  expect(() => brew.measuredRetention(100, 101, 10)).toThrow('got 101')
  expect(() => brew.percolationExtraction(1.38, 240, 15)).toThrow('got 1.38')
  expect(() => brew.instantStrength(2, 0)).toThrow(RangeError)
  expect(() => brew.bypassStrength(0.02, 100, -1)).toThrow('got -1')
})
