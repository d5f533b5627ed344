import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { swapSyrup, syrupBatch, weightAtBrix } from '@/lib/drink/syrup'

const grams = fc.double({ min: 1, max: 1e5, noNaN: true })
const near = (a: number, b: number) => expect(Math.abs(a - b)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(b)))

test('mass in is mass out and lost, and all sugar is in the syrup', () => {
  fc.assert(
    fc.property(grams, grams, fc.double({ min: 0, max: 1, noNaN: true }), (sugar, water, kept) => {
      const inputs = [
        { grams: sugar, sugarFraction: 1 },
        { grams: water, sugarFraction: 0 },
      ]
      const batch = syrupBatch(inputs, sugar + water * kept)
      near(batch.outputGrams + batch.lostGrams, sugar + water)
      near((batch.brix / 100) * batch.outputGrams, sugar)
      near(batch.volumeMl * batch.sugarPerMl, sugar)
    }),
  )
})

test('a swap keeps the sugar, and the added water keeps the mass', () => {
  const brix = fc.double({ min: 1, max: 85, noNaN: true })
  fc.assert(
    fc.property(grams, brix, brix, (mass, one, two) => {
      const swap = swapSyrup(mass, one, two)
      near(swap.grams * two, mass * one)
      near(swap.grams + swap.waterToAdd, mass)
    }),
  )
})

test('simmering to the Brix it has loses nothing, and never goes down', () => {
  expect(weightAtBrix(1000, 50, 50)).toBe(1000)
  expect(() => weightAtBrix(1000, 50, 40)).toThrow('got 40')
})

test('what cannot be weighed so is refused with the weight', () => {
  const half = [
    { grams: 500, sugarFraction: 1 },
    { grams: 500, sugarFraction: 0 },
  ]
  expect(() => syrupBatch(half, 1001)).toThrow('output must not outweigh what went in (1000), got 1001')
  expect(() => syrupBatch(half, 499)).toThrow('got 499')
  expect(() => syrupBatch([], 10)).toThrow(RangeError)
  expect(() => syrupBatch([{ grams: 0, sugarFraction: 1 }], 0)).toThrow('an amount must be above 0, got 0')
  expect(() => syrupBatch([{ grams: 1, sugarFraction: 2 }], 1)).toThrow('got 2')
  expect(() => swapSyrup(0, 50, 60)).toThrow(RangeError)
})
