import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { computeBuild } from '@/lib/drink/build'
import { onTarget, scaleBuild, scaleSheet } from '@/lib/drink/scale'
import { aBrew, aLine, aTrial, grounds, ice, water } from '../../support/drink-lines'

const trial = aTrial([grounds(15), water(30), ice(200)], {
  brew: aBrew(),
  vessel: { name: 'glass', brimMl: 473, fillMl: 440 },
})

test('the running weight ends at the mass the figures give, for any number of glasses', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 12 }), (glasses) => {
      const sheet = scaleSheet(trial, glasses)
      const { totalMass } = computeBuild(scaleBuild(trial, glasses))
      expect(Math.abs((sheet.finalGrams ?? 0) - (totalMass.known ? totalMass.value : 0))).toBeLessThan(1e-9)
    }),
  )
})

test('grounds are brewed first, and their beverage is what the scale sees', () => {
  const [first, second, third] = scaleSheet(trial, 2).steps
  // by hand: twice 15 g with ten times that of water, twice 15 · (10 − 2) g poured; 2 % of each
  expect(first).toMatchObject({ brew: { dose: 30, water: 300 }, add: 240, running: 240 })
  expect([first?.brew?.tolerance, first?.tolerance]).toEqual([expect.closeTo(0.6, 9), expect.closeTo(4.8, 9)])
  expect(second).toMatchObject({ brew: null, add: 60, running: 300 })
  expect(third).toMatchObject({ add: 400, running: 700 })
})

test('a step that is not known stops the running weight, and says why', () => {
  const sheet = scaleSheet({ ...trial, brew: null }, 1)
  expect(sheet.steps[0]?.missing).toEqual(['how Roast coffee is brewed'])
  expect([sheet.steps[1]?.running, sheet.finalGrams]).toEqual([null, null])
})

test('tolerances scale with the glasses and add as squares at the end', () => {
  const sheet = scaleSheet(aTrial([aLine({ toleranceGrams: 3 }), aLine({ toleranceGrams: 4 })]), 2)
  expect(sheet.steps.map(({ tolerance }) => tolerance)).toEqual([6, 8])
  expect(sheet.tolerance).toBe(10)
  expect([onTarget(93, 100, 6), onTarget(94, 100, 6), onTarget(106, 100, 6), onTarget(107, 100, 6)]).toEqual([
    'under',
    'right',
    'right',
    'over',
  ])
})

test('no glass, half a glass and thirteen are refused', () => {
  for (const glasses of [0, 0.5, 13]) {
    expect(() => scaleBuild(trial, glasses)).toThrow(`got ${glasses}`)
    expect(() => scaleSheet(trial, glasses)).toThrow(RangeError)
  }
})

test('what a line says of its tolerance is of the dry dose; a dose too small for its scale is named', () => {
  const [coffee, zest] = scaleSheet(
    aTrial([grounds(15, { toleranceGrams: 0.2 }), aLine({ targetGrams: 0.2 })], { brew: aBrew() }),
    1,
  ).steps
  expect([coffee?.brew?.tolerance, coffee?.tolerance]).toEqual([0.2, expect.closeTo(2.4, 9)])
  expect([coffee?.tooCoarse, zest?.tooCoarse]).toEqual([null, { scale: { name: null, division: 0.1 }, glasses: 5 }])
})

test('what stands at the edge of its tolerance is right, though a computer adds 0.7 and 0.1 to a little less than 0.8', () => {
  expect(onTarget(0.8, 0.7, 0.1)).toBe('right')
  expect(onTarget(0.81, 0.7, 0.1)).toBe('over')
})
