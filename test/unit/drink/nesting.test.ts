import { expect, test } from 'vitest'
import { batchFigures } from '@/lib/drink/batch-figures'
import { computeBuild } from '@/lib/drink/build'
import type { BuildLine, Preparation } from '@/lib/drink/trial'
import { preparationContents } from '@/lib/drink/preparation'
import { problemsOfBuild } from '@/lib/drink/problem'
import { scaleSheet } from '@/lib/drink/scale'
import { fileOfTrial } from '@/lib/forms/trial-of-file'
import { aBatch, aLine, aTrial, sugar, water } from '../../support/drink-lines'

/** A preparation that counts how often somebody looks at what went into it. */
function counted(preparation: Preparation, looks: { count: number }): Preparation {
  const { inputs } = preparation
  return Object.defineProperty({ ...preparation }, 'inputs', {
    enumerable: true,
    get: () => ((looks.count += 1), inputs),
  })
}

/** Each level pours the one below it `times` over; the lowest is a syrup of 100 g sugar and 100 g water. */
function tower(levels: number, times: number, looks = { count: 0 }) {
  let top = counted(aBatch([sugar(100), water(100)], { name: 'Level 1', batch: '1', outputGrams: 200 }), looks)
  for (let level = 2; level <= levels; level++) {
    const pour = (place: number): BuildLine =>
      aLine({ key: String(place), name: `Level ${level - 1}`, kind: 'sweetener', targetGrams: 100, preparation: top })
    const inputs = Array.from({ length: times }, (_, place) => pour(place + 1))
    top = counted(aBatch(inputs, { name: `Level ${level}`, batch: '1', outputGrams: 100 * times }), looks)
  }
  return { trial: aTrial([aLine({ name: 'Tower', kind: 'sweetener', targetGrams: 50, preparation: top })]), top, looks }
}

// One look each would be levels looks; every reader may look a few times at each preparation, never twice as often per level.
test.each<[string, (of: ReturnType<typeof tower>) => unknown]>([
  ['the contents of a batch', ({ top }) => preparationContents(top)],
  ['the figures of a batch', ({ top }) => batchFigures(top)],
  ['the figures of a trial, with allergens, caffeine, cost and cautions', ({ trial }) => computeBuild(trial)],
  ['the checks', ({ trial }) => problemsOfBuild(trial)],
  ['the scale', ({ trial }) => scaleSheet(trial, 3)],
  ['the written file', ({ trial }) => fileOfTrial(trial)],
])('%s: 18 preparations, each poured twice into the next, are looked at once each and not 2¹⁸ times', (_, read) => {
  const of = tower(18, 2)
  of.looks.count = 0
  read(of)
  expect(of.looks.count).toBeLessThanOrEqual(18 * 20)
})

test('sources of sugar and parts with a label are named once per batch, however often it is poured', () => {
  const { top } = tower(18, 2)
  const whole = preparationContents(top)
  expect(whole.parts.map(({ name }) => name)).toEqual(['White sugar', 'Water'])
  expect(whole.sources.map(({ name }) => name)).toEqual(['White sugar'])
  // By hand: each level is the level below and nothing else, so every 200 g hold 100 g of sugar.
  expect(whole.grams.total).toBe(200)
  expect(whole.sugars.total).toBeCloseTo(100, 9)
  expect(whole.sources[0]?.sugars.total).toBeCloseTo(100, 9)
})

test('sugar that is known and sugar that is not stay apart under one name', () => {
  const unknown = aLine({ name: 'White sugar', kind: 'sweetener', targetGrams: 50, composition: null })
  const whole = preparationContents(aBatch([sugar(100), unknown, sugar(20)], { outputGrams: 170, kind: 'mix' }))
  const [known, asked] = whole.sources
  // By hand: 100 g and 20 g of sugar are known, nothing was lost; the third is asked for.
  expect([whole.sources.length, known?.sugars.total, known?.sugars.missing]).toEqual([2, 120, []])
  expect(asked?.sugars.missing).toEqual(['sugars of White sugar'])
})

test('a chain of 5 000 preparations that a house already holds is still read', () => {
  const { trial } = tower(5000, 1)
  const figures = computeBuild(trial)
  // By hand: 50 g of a syrup of half sugar.
  expect(figures.sugars).toMatchObject({ known: true })
  expect(figures.sugars.known && figures.sugars.value).toBeCloseTo(25, 6)
  expect(problemsOfBuild(trial)).toEqual([])
  expect(Object.keys(fileOfTrial(trial).preparations ?? {})).toHaveLength(5000)
})
