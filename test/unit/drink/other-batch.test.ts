/** Another batch of a syrup: numbers by a balance of the sugar, m₁ · Bx₁ = m₂ · Bx₂, worked by hand. */
import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { doseFromOtherBatch } from '@/lib/drink/other-batch'

test('more than a degree apart, the dose holds the same sugar', () => {
  // 30 g of 50 °Bx hold 15 g of sugar; 15 g stand in 25 g of 60 °Bx
  expect(doseFromOtherBatch(30, 50, 60)).toEqual({ dose: 'corrected', grams: 25, was: 50, reads: 60 })
  // 40 g of 66 °Bx hold 26.4 g; 26.4 g stand in 48 g of 55 °Bx
  expect(doseFromOtherBatch(40, 66, 55)).toMatchObject({ dose: 'corrected', grams: expect.closeTo(48, 9) })
})

test('one degree is within, whatever a difference of two decimals comes to, and a hundredth more is not', () => {
  // 54.3 − 53.3 and 66.1 − 65.1 are a little more than 1 in binary arithmetic
  for (const [was, reads] of [
    [53.3, 54.3],
    [54.3, 53.3],
    [65.1, 66.1],
    [50, 51],
    [50, 50],
  ] as const)
    expect(doseFromOtherBatch(30, was, reads)).toEqual({ dose: 'stays' })
  expect(doseFromOtherBatch(30, 50, 51.01).dose).toBe('corrected')
  expect(doseFromOtherBatch(30, 50, 48.99).dose).toBe('corrected')
})

test('where one of the two is not known, nobody can say', () => {
  expect(doseFromOtherBatch(30, null, 60)).toEqual({ dose: 'unknown', lacks: ['was'] })
  expect(doseFromOtherBatch(30, 50, null)).toEqual({ dose: 'unknown', lacks: ['reads'] })
  expect(doseFromOtherBatch(30, null, null)).toEqual({ dose: 'unknown', lacks: ['was', 'reads'] })
  // no sugar in it: no amount of it holds the same
  expect(doseFromOtherBatch(30, 50, 0)).toEqual({ dose: 'unknown', lacks: ['reads'] })
  expect(() => doseFromOtherBatch(0, 50, 60)).toThrow('got 0')
})

test('the sugar stays, and there and back is the same dose', () => {
  const brix = fc.double({ min: 1, max: 85, noNaN: true })
  const mass = fc.double({ min: 0.1, max: 1e4, noNaN: true })
  fc.assert(
    fc.property(mass, brix, brix, (grams, was, reads) => {
      const there = doseFromOtherBatch(grams, was, reads)
      const back = doseFromOtherBatch(grams, reads, was)
      expect(there.dose).toBe(back.dose)
      if (there.dose !== 'corrected') return
      expect(there.grams * reads).toBeCloseTo(grams * was, 6)
      const again = doseFromOtherBatch(there.grams, reads, was)
      expect(again).toMatchObject({ dose: 'corrected', grams: expect.closeTo(grams, 6) })
    }),
  )
})
