import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Scaled } from '@/lib/drink/to-ml'
import { toMl } from '@/lib/drink/to-ml'
import { aLine, aTrial, ice, per100, water } from '../../support/drink-lines'

const milk = (over = {}) =>
  aLine({ key: 'milk', name: 'Milk', kind: 'milk', targetGrams: 63.9, density: 1.065, temperature: 5, ...over })
const coffee = (over = {}) =>
  aLine({
    key: 'coffee',
    name: 'Coffee',
    kind: 'coffee',
    targetGrams: 120,
    temperature: null,
    composition: per100({ water: 98, coffeeSolids: 2 }),
    ...over,
  })
const trial = aTrial([coffee(), milk({ composition: null }), ice(200)], { iceTemperature: 0 })

function scaled(of: ReturnType<typeof toMl>): Scaled {
  if (!of.known) throw new Error(`not known: ${JSON.stringify(of.missing)}`)
  return of
}

test('as built, the ice counts as it stands in the glass', () => {
  // by hand: 120 + 63.9/1.065 + 200/0.9167 = 398.174 ml (displacement; density of ice from memory)
  const { factor, meltGrams, lines, basis } = scaled(toMl(trial, 1000, 'built'))
  expect(factor).toBeCloseTo(1000 / 398.174, 5)
  expect([basis, meltGrams]).toEqual(['built', 0])
  expect(lines.map(({ grams }) => grams / factor)).toEqual([120, 63.9, 200].map((grams) => expect.closeTo(grams, 9)))
})

test('strained, the melt of the jug fills its part and the rest of the ice none', () => {
  // by hand: (120·4.186·85 + 63.9·3.9·5)/333.55 = 131.744 g melt; 180 + 131.744/0.99984 = 311.765 ml
  const { factor, meltGrams } = scaled(toMl(trial, 1000, 'strained'))
  expect(factor).toBeCloseTo(1000 / 311.765, 4)
  expect(meltGrams / factor).toBeCloseTo(131.744, 3)
})

test('without ice nothing melts, and no temperature is asked for', () => {
  const dry = aTrial([milk({ temperature: null }), water(40)], { coffeeTemperature: null })
  // by hand: 60 ml and 40 g of water at 0.9982 g/ml
  expect(scaled(toMl(dry, 500, 'strained')).factor).toBeCloseTo(500 / (60 + 40 / 0.9982), 5)
})

test('strained off ice, a temperature nobody measured is asked for by its line; as built it is not needed', () => {
  const unmeasured = aTrial([coffee(), milk({ temperature: null }), ice(200)], { coffeeTemperature: null })
  const asked = toMl(unmeasured, 1000, 'strained')
  expect(asked.known).toBe(false)
  expect(JSON.stringify(asked)).toContain('Coffee')
  expect(JSON.stringify(asked)).toContain('Milk')
  expect(toMl(unmeasured, 1000, 'built').known).toBe(true)
  const warmIce = toMl(aTrial([coffee(), ice(200)], { iceTemperature: null }), 1000, 'strained')
  expect(JSON.stringify(warmIce)).toContain('ice')
})

test('ice alone gives nothing to pour', () => {
  expect(toMl(aTrial([ice(200)]), 1000, 'strained').known).toBe(false)
})

test('twice the volume is twice every gram, and shares stay what they were', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 1, max: 1e5, noNaN: true }),
      fc.constantFrom('built' as const, 'strained' as const),
      (ml, basis) => {
        const [once, twice] = [scaled(toMl(trial, ml, basis)), scaled(toMl(trial, 2 * ml, basis))]
        for (const [k, { grams }] of twice.lines.entries()) {
          expect(Math.abs(grams / (once.lines[k]?.grams ?? 0) - 2)).toBeLessThan(1e-9)
          expect(Math.abs(grams / twice.factor / (trial.lines[k]?.targetGrams ?? 0) - 1)).toBeLessThan(1e-9)
        }
      },
    ),
  )
})

test('no volume, and more than a slip could mean, are refused', () => {
  for (const ml of [0, -1, 1e7]) expect(() => toMl(trial, ml, 'built')).toThrow(`got ${ml}`)
})
