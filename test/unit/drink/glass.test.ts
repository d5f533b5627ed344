import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import type { BuildLine } from '@/lib/drink/trial'
import type { Figure } from '@/lib/drink/figure'
import { addends, glassFigures } from '@/lib/drink/glass'
import { contentsOfLine } from '@/lib/drink/preparation'
import { tally } from '@/lib/drink/figure'
import { aBrew, aLine, aTrial, grounds, ice, per100, water } from '../../support/drink-lines'

const glass = (lines: BuildLine[], over: Parameters<typeof aTrial>[1] = {}) => {
  const build = aTrial(lines, { brew: aBrew(), ...over })
  return glassFigures(
    build,
    lines.map((line) => ({ line, contents: contentsOfLine(line, build.brew) })),
  )
}
const value = (one: Figure) => (one.known ? one.value : Number.NaN)

test('the mass of the glass is the sum of what is poured, with the beverage for the grounds', () => {
  expect(value(glass([grounds(15), water(30), ice(200)]).totalMass)).toBe(120 + 30 + 200)
})

test('melted ice changes the strength, never the total mass, and dilution only grows', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 5, max: 30, noNaN: true }),
      fc.double({ min: 1, max: 300, noNaN: true }),
      (dose, cubes) => {
        const all = glass([grounds(dose), ice(cubes)])
        const strengths = [
          all.solidsBeforeMelt,
          all.solidsAfterMelt,
          ...all.dilution.map((one) => one.coffeeSolids),
        ].map(value)
        for (const [index, strength] of strengths.entries()) {
          if (index > 0) expect(strength).toBeLessThanOrEqual((strengths[index - 1] ?? 0) + 1e-12)
        }
        const last = all.dilution.at(-1)
        expect(last ? value(last.meltwater) : Number.NaN).toBeLessThanOrEqual(cubes + 1e-9)
      },
    ),
  )
})

test('without the temperature of coffee or ice the melt is not known, and says which', () => {
  const all = glass([grounds(15), ice(200)], { coffeeTemperature: null, iceTemperature: null })
  expect(all.iceMelted).toEqual({
    known: false,
    unit: 'g',
    missing: ['temperature of the ice', 'temperature of the coffee when poured'],
  })
  expect(all.solidsBeforeMelt.known).toBe(true)
  expect(all.solidsAfterMelt.known).toBe(false)
})

test('a line without density leaves the fit unknown, a vessel without size too', () => {
  const vessel = { name: 'glass', brimMl: 473, fillMl: null }
  expect(glass([aLine({ name: 'Sauce', density: null })], { vessel }).fit).toBe('not-known')
  expect(glass([water(100)]).fit).toBe('not-known')
  expect(glass([water(100)], { vessel }).fit).toBe('fits')
  expect(glass([water(480)], { vessel }).fit).toBe('over-brim')
  expect(glass([water(100)], { vessel }).roomToFillLine).toBeNull()
})

test('milk nobody measured is taken as cold, and the figure says so', () => {
  const milk = aLine({ name: 'Milk', kind: 'milk', temperature: null, composition: per100({ water: null }) })
  const { temperature } = glass([grounds(15), milk, ice(10)])
  expect(temperature.known && temperature.assumed.join('; ')).toContain('Milk at 5 °C')
  expect(temperature.known && temperature.assumed.join('; ')).toContain('3.9 J/(g·K)')
})

test('an empty glass and warm ice give no figure and no crash', () => {
  expect(glass([]).iceMelted.known).toBe(false)
  expect(glass([ice(100)], { iceTemperature: 3 }).iceMelted.known).toBe(false)
})

test('a working writes out what adds up and leaves out what adds nothing', () => {
  const part = (name: string, grams: number) => ({ name, amount: tally(grams, '') })
  expect(addends([part('Syrup', 36.888), part('Water', 0), part('Milk', 6.42)])).toBe('36.89 (Syrup) + 6.42 (Milk)')
  expect(addends([])).toBe('0')
})
