/** Another batch of a syrup: numbers by a balance of the sugar, m₁ · Bx₁ = m₂ · Bx₂, worked by hand. */
import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Preparation } from '@/lib/drink/trial'
import { comparedBrix, doseFromOtherBatch, goesByBrix } from '@/lib/drink/other-batch'
import { aBatch, aLine, sugar, water } from '../../support/drink-lines'

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

// common practice, no source: a refractometer reads sugar in a syrup, a cordial or a mix, coffee's solids in a brew, and milk's
test('a syrup goes by °Bx, and so does what is infused or mixed where one was read or is named; no brew, and nothing with milk', () => {
  const of = (kind: Preparation['kind'], brixMeasured: number | null = null, lines = [water(50)]) =>
    aBatch(lines, { kind, brixMeasured, outputGrams: 50 })
  expect(goesByBrix([of('syrup')], null)).toBe(true)
  for (const kind of ['infusion', 'mix'] as const) {
    expect(goesByBrix([of(kind)], null)).toBe(false)
    expect(goesByBrix([of(kind)], 30)).toBe(true)
    expect(goesByBrix([of(kind), of(kind, 30)], null)).toBe(true)
  }
  expect(goesByBrix([of('brew', 2)], 2)).toBe(false)
  const milk = aLine({ name: 'Milk', kind: 'milk' })
  expect(goesByBrix([of('mix', 30, [milk])], 30)).toBe(false)
  const held = aLine({ name: 'Base', preparation: of('mix', null, [milk]) })
  expect(goesByBrix([of('syrup', 30, [held])], null)).toBe(false)
})

test('what is infused or mixed compares by what was read alone, a syrup by weight as well', () => {
  const of = (kind: Preparation['kind'], brixMeasured: number | null) =>
    aBatch([sugar(50), water(50)], { kind, brixMeasured, outputGrams: 100 })
  // by hand: 50 g of sugar in 100 g
  expect(comparedBrix(of('syrup', null))).toBeCloseTo(50, 9)
  expect(comparedBrix(of('mix', null))).toBeNull()
  expect(comparedBrix(of('mix', 31))).toBe(31)
})
