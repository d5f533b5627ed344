/** Check values of the brief's trade tables: 1000 g sugar + 500 g water; 1000 g at 50 °Bx simmered to 833.3 g is 60 °Bx (computed from the balance of mass). */
import { expect, test } from 'vitest'
import { batchFigures } from '@/lib/drink/batch-figures'
import type { Figure } from '@/lib/drink/figure'
import type { BuildLine, Preparation } from '@/lib/drink/trial'

const line = (name: string, kind: BuildLine['kind'], grams: number, sugars: number): BuildLine => ({
  key: name,
  insteadOf: null,
  name,
  kind,
  form: kind === 'sweetener' ? 'powder' : 'liquid',
  role: kind,
  targetGrams: grams,
  weighedGrams: null,
  toleranceGrams: null,
  typed: null,
  grind: null,
  temperature: null,
  density: kind === 'water' ? 0.998 : null,
  costPerGram: 0.001,
  composition: {
    water: 100 - sugars,
    sugars,
    freeSugars: sugars,
    fat: 0,
    protein: 0,
    energyKcal: 4 * sugars,
    coffeeSolids: 0,
    caffeineLow: 0,
    caffeineHigh: 0,
    sweetness: sugars,
  },
  allergens: {},
  labelRead: true,
  preparation: null,
})

const syrup = (outputGrams: number | null, more: Partial<Preparation> = {}): Preparation => ({
  name: 'Syrup',
  kind: 'syrup',
  batch: '1',
  inputs: [line('Sugar', 'sweetener', 500, 100), line('Water', 'water', 500, 0)],
  outputGrams,
  brixMeasured: null,
  densityMeasured: null,
  brew: null,
  storageTemperature: 5,
  ...more,
})

const value = (figure: Figure | undefined) => (figure?.known ? figure.value : null)

test('what boils off is water: 1000 g at 50 °Bx down to 833.3 g is 60 °Bx', () => {
  const figures = batchFigures(syrup(1000 * (50 / 60)))
  expect(value(figures.syrup?.brixBefore)).toBeCloseTo(50, 9)
  expect(value(figures.syrup?.brix)).toBeCloseTo(60, 9)
  expect(value(figures.lost)).toBeCloseTo(166.667, 3)
  expect(value(figures.syrup?.sugarPerGram)).toBeCloseTo(0.6, 9)
})

test('a 2:1 syrup crystallises in the cold, a 1:1 stays clear', () => {
  const strong = { inputs: [line('Sugar', 'sweetener', 1000, 100), line('Water', 'water', 500, 0)] }
  expect(batchFigures(syrup(1500, strong)).syrup?.crystals).toBe('will-crystallise')
  expect(batchFigures(syrup(1000)).syrup?.crystals).toBe('stays-clear')
})

test('while the output is not weighed, what hangs on it is not known and says so', () => {
  const figures = batchFigures(syrup(null))
  expect(figures.output.known).toBe(false)
  expect(figures.costPerKg.known).toBe(false)
  expect(value(figures.into)).toBe(1000)
})

test('cost follows the mass that came out: 1.00 for 1000 g in, 950 g out, is 1.0526 a kilogram', () => {
  expect(value(batchFigures(syrup(950)).costPerKg)).toBeCloseTo(1.0526, 4)
})
