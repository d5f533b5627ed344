import { expect, test } from 'vitest'
import type { BuildLine } from '@/lib/drink/trial'
import { intakeFigures } from '@/lib/drink/intake'
import { contentsOfLine } from '@/lib/drink/preparation'
import { aBatch, aBrew, aLine, grounds, per100, sugar, water } from '../../support/drink-lines'

const intake = (lines: BuildLine[]) =>
  intakeFigures(
    lines.map((line) => ({ line, contents: contentsOfLine(line, aBrew()) })),
    aBrew(),
  )

const milk = aLine({
  name: 'Milk',
  kind: 'milk',
  composition: per100({ sugars: 5, freeSugars: 0, fat: 3.25, sweetness: null }),
})

test('the lactose of milk counts as sugar, not as free sugar', () => {
  const all = intake([milk, sugar(20)])
  expect(all.sugars).toMatchObject({ known: true, value: 25, formula: '5 (Milk) + 20 (White sugar)' })
  expect(all.freeSugars).toMatchObject({ known: true, value: 20 })
  expect(all.shares.who).toMatchObject({ value: 40 })
  expect(all.shares.whoLower).toMatchObject({ value: 80 })
})

test('one ingredient in two preparations is one source of sugar, the largest first', () => {
  const batch = aBatch([sugar(100), water(100)])
  const all = intake([milk, aLine({ name: 'Syrup', targetGrams: 20, preparation: batch }), sugar(5)])
  expect(all.sugarSources).toEqual([
    { name: 'White sugar', grams: 15, free: 15 },
    { name: 'Milk', grams: 5, free: 0 },
  ])
})

test('the sweetness of milk is assumed from lactose when nobody gave it, and says so', () => {
  const { sweetness } = intake([milk])
  expect(sweetness).toMatchObject({ value: 5 * 0.16, assumed: ['Milk is as sweet as its sugars were lactose'] })
})

test('caffeine is a range around its middle, and not known where the coffee’s content is not', () => {
  const { caffeine } = intake([grounds(15)])
  expect(caffeine.known && caffeine.low < caffeine.value && caffeine.value < caffeine.high).toBe(true)
  // By hand: 15 g · 11 mg/g · 0.95 · 0.8 = 125.4 mg, less 30 % = 88; 15 g · 12 mg/g · 0.95 · 0.8 = 136.8 mg, and 30 % = 178.
  expect(caffeine).toMatchObject({
    formula:
      '88 to 178 (Roast coffee): 15 g · (11 mg/g less 30 % to 12 mg/g and 30 % more) · 0.95 released · 0.8 served',
  })
  expect(intake([grounds(15, { composition: null })]).caffeine).toMatchObject({
    known: false,
    missing: ['caffeine of Roast coffee'],
  })
})
