import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { changesBetween, scaledTo, yieldOf, type Version } from '@/lib/drink/formula'
import { preparationContents } from '@/lib/drink/preparation'
import { aBatch, aBrew, aLine, grounds, sugar, water } from '../../support/drink-lines'

const nothing = { grams: null, brix: null }

describe('what a formula gives', () => {
  const pot = aBatch([sugar(600), water(600)], { outputGrams: null })

  test('its target mass goes before all else; without one, the mass at its Brix', () => {
    expect(yieldOf(pot, { grams: 900, brix: 65 }, 0.8)).toEqual({ grams: 900, by: 'target' })
    // by hand: 600 g of sugar are 60 % of 1 000 g
    expect(yieldOf(pot, { grams: null, brix: 60 }, 0.8)).toEqual({ grams: expect.closeTo(1000, 9), by: 'brix' })
  })

  test('a Brix below what goes in is no target: it goes by weighed batches, else nobody knows', () => {
    expect(yieldOf(pot, { grams: null, brix: 40 }, 0.8)).toEqual({ grams: expect.closeTo(960, 9), by: 'measured' })
    expect(yieldOf(pot, nothing, null)).toBeNull()
  })

  test('a mix loses nothing until a batch was weighed; a brew keeps what its grounds keep', () => {
    const mix = aBatch([aLine({ targetGrams: 300 }), water(200)], { kind: 'mix', outputGrams: null })
    expect(yieldOf(mix, nothing, null)).toEqual({ grams: 500, by: 'sum' })
    const steep = aBatch([grounds(100), water(800)], {
      kind: 'brew',
      outputGrams: null,
      brew: aBrew({ brewing: 'immersion', retention: 2, ratio: null, ratioKind: null }),
    })
    // by hand: 800 − 2 · 100
    expect(yieldOf(steep, nothing, null)).toEqual({ grams: expect.closeTo(600, 9), by: 'retention' })
  })

  test('an infusion gives what its strained does not keep back', () => {
    const tea = aBatch([water(500), aLine({ name: 'Tea', targetGrams: 20, strainedOut: true })], {
      kind: 'infusion',
      outputGrams: null,
      retention: 3,
    })
    // by hand: 500 − 3 · 20
    expect(yieldOf(tea, nothing, null)).toEqual({ grams: expect.closeTo(440, 9), by: 'retention' })
    expect(yieldOf({ ...tea, retention: null }, nothing, null)).toBeNull()
  })

  test('an amount that is not known leaves it not known', () => {
    const unknown = aBatch([sugar(600), water(Number.NaN)], { outputGrams: null })
    expect(yieldOf(unknown, { grams: 900, brix: null }, null)).toBeNull()
  })
})

const mass = fc.double({ min: 0.5, max: 5000, noNaN: true })

test('scaling keeps every share, and back is where one began', () => {
  fc.assert(
    fc.property(fc.array(mass, { minLength: 1, maxLength: 8 }), mass, mass, (grams, from, wanted) => {
      const there = scaledTo(grams, from, wanted)
      const all = (some: readonly number[]) => some.reduce((sum, one) => sum + one, 0)
      grams.forEach((one, at) => expect((there[at] ?? 0) / all(there)).toBeCloseTo(one / all(grams), 9))
      scaledTo(there, wanted, from).forEach((one, at) => expect(one / (grams[at] ?? 0)).toBeCloseTo(1, 9))
    }),
  )
  expect(() => scaledTo([1], 0, 5)).toThrow(RangeError)
})

test('mass and sugar go through a formula of a formula: what is in the outer pot went into either', () => {
  fc.assert(
    fc.property(mass, mass, mass, fc.double({ min: 0.5, max: 1, noNaN: true }), (a, b, c, kept) => {
      const inner = aBatch([sugar(a), water(b)], { outputGrams: a + b * kept })
      const outer = aBatch([aLine({ targetGrams: c, preparation: inner }), sugar(b)], { outputGrams: b + c })
      const whole = preparationContents(outer)
      const gives = yieldOf({ ...outer, outputGrams: null }, { grams: b + c, brix: null }, null)
      expect(whole.grams.total).toBeCloseTo(gives?.grams ?? 0, 6)
      expect(whole.sugars.total / ((c * a) / (a + b * kept) + b)).toBeCloseTo(1, 9)
    }),
  )
})

describe('what changed between two versions', () => {
  const input = { ref: 'ingredient:1', name: 'Dates', grams: 300, temperature: null, isStrainedOut: false }
  const first: Version = {
    inputs: [input, { ...input, ref: 'ingredient:2', name: 'Water', grams: 600 }],
    target: { grams: 800, brix: 55 },
    retention: null,
    storage: 4,
    keepsHours: 168,
    steps: [{ text: 'Simmer', minutes: 20 }],
    note: null,
  }

  test('nothing', () => expect(changesBetween(first, structuredClone(first))).toEqual([]))

  test('every field that differs is named once', () => {
    const cardamom = { ...input, ref: 'ingredient:3', name: 'Cardamom', grams: 4, isStrainedOut: true }
    const changed: Version = {
      inputs: [{ ...input, grams: 320, temperature: 60, isStrainedOut: true }, cardamom],
      target: { grams: 780, brix: 60 },
      retention: 1.5,
      storage: 5,
      keepsHours: 120,
      steps: [{ text: 'Simmer', minutes: 25 }],
      note: 'Softer dates',
    }
    expect(changesBetween(first, changed)).toEqual([
      { what: 'amount', name: 'Dates', before: 300, after: 320 },
      { what: 'strained-out', name: 'Dates' },
      { what: 'temperature-in', name: 'Dates', before: null, after: 60 },
      { what: 'added', name: 'Cardamom', grams: 4 },
      { what: 'taken-out', name: 'Water', grams: 600 },
      { what: 'target', before: 800, after: 780 },
      { what: 'brix', before: 55, after: 60 },
      { what: 'retention', before: null, after: 1.5 },
      { what: 'storage', before: 4, after: 5 },
      { what: 'keeps', before: 168, after: 120 },
      { what: 'steps' },
      { what: 'note' },
    ])
    expect(changesBetween(first, { ...first, inputs: first.inputs.toReversed() })).toEqual([{ what: 'order' }])
  })
})
