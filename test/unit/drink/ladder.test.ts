import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { changedThings, changesBetween } from '@/lib/drink/change'
import { contentsOfLine } from '@/lib/drink/preparation'
import type { TrialBuild } from '@/lib/drink/trial'
import { doseLadder, ingredientLadder, methodLadder, ratioLadder, swapSweetener } from '@/lib/drink/ladder'
import { aBatch, aBrew, aLine, aTrial, grounds, ice, sugar, water } from '../../support/drink-lines'

const syrup = (sugars: number, targetGrams = 40) =>
  aLine({
    key: 's',
    name: `Syrup ${sugars}`,
    kind: 'sweetener',
    targetGrams,
    preparation: aBatch([sugar(sugars), water(100 - sugars)]),
  })
const base = aTrial([grounds(15, { key: 'c' }), syrup(50), water(60, { key: 'w' }), ice(200)], { brew: aBrew() })
const total = (build: TrialBuild, measure: 'sugars' | 'grams' | 'water') =>
  build.lines.reduce((all, line) => all + contentsOfLine(line, build.brew)[measure].total, 0)

test('a dose ladder changes one thing on each rung, and nothing is weighed yet', () => {
  const weighed = { ...base, lines: base.lines.map((line) => ({ ...line, weighedGrams: 7 })) }
  const rungs = doseLadder(weighed, 's', [20, 30, 40])
  expect(rungs.map((rung) => rung.lines.find(({ key }) => key === 's')?.targetGrams)).toEqual([20, 30, 40])
  expect(rungs.map((rung) => changedThings(changesBetween(base, rung)))).toEqual([1, 1, 0])
  expect(rungs.flatMap(({ lines }) => lines.map(({ weighedGrams }) => weighedGrams)).every((g) => g === null)).toBe(
    true,
  )
})

test('a ratio ladder that holds the beverage keeps the glass as full, one that holds the dose keeps the coffee', () => {
  for (const rung of ratioLadder(base, [8, 12], 'beverage'))
    expect(total(rung, 'grams')).toBeCloseTo(total(base, 'grams'), 9)
  for (const rung of ratioLadder(base, [8, 12], 'dose')) expect(rung.lines[0]?.targetGrams).toBe(15)
})

test('a method ladder forgets what was measured of the other method', () => {
  const measured = { ...base, brew: aBrew({ strengthPercent: 2.1 }) }
  const [rung] = methodLadder(measured, [{ method: 'pour-over', brewing: 'percolation', retention: 2.2 }])
  expect(rung?.brew).toMatchObject({
    method: 'pour-over',
    strengthPercent: null,
    extractionPercent: null,
    retention: 2.2,
  })
})

test('another milk goes in by the same mass', () => {
  const [rung] = ingredientLadder(base, 'w', [aLine({ name: 'Oat drink', targetGrams: 1 })])
  expect(rung?.lines.find(({ key }) => key === 'w')).toMatchObject({ name: 'Oat drink', targetGrams: 60 })
})

test('a swapped syrup keeps sugar, water and mass, whatever the two Brix', () => {
  const brix = fc.integer({ min: 45, max: 75 })
  fc.assert(
    fc.property(brix, brix, (one, two) => {
      const before = { ...base, lines: [syrup(one), water(60, { key: 'w' })] }
      const swap = swapSweetener(before, 's', syrup(two), 'w')
      expect(swap.ok).toBe(true)
      if (!swap.ok) return
      for (const measure of ['sugars', 'grams', 'water'] as const) {
        expect(Math.abs(total(swap.build, measure) - total(before, measure))).toBeLessThan(1e-9)
      }
    }),
  )
})

test('a swap adds a line of water where there was none, and says when there is too little to take away', () => {
  const alone = { ...base, lines: [syrup(50)] }
  const thicker = swapSweetener(alone, 's', syrup(60), null)
  expect(thicker.ok && thicker.build.lines.at(-1)).toMatchObject({ kind: 'water', role: 'balance' })
  expect(swapSweetener(alone, 's', syrup(40), null)).toEqual({ ok: false, missing: ['10 g of water to take away'] })
  expect(swapSweetener(alone, 's', water(1), null)).toEqual({ ok: false, missing: ['sugar in Water'] })
  const unknown = swapSweetener(alone, 's', aLine({ name: 'Dates', composition: null }), null)
  expect(unknown).toEqual({ ok: false, missing: ['sugars of Dates'] })
})

test('a level that cannot be brewed or poured is refused', () => {
  expect(() => doseLadder(base, 's', [0])).toThrow('got 0')
  expect(() => doseLadder(base, 'nothing', [1])).toThrow('got nothing')
  expect(() => ratioLadder(base, [2], 'dose')).toThrow('a level must leave beverage, got 2')
  expect(() => ratioLadder(aTrial([]), [10], 'dose')).toThrow(RangeError)
  expect(() => methodLadder(aTrial([]), [])).toThrow(RangeError)
})
