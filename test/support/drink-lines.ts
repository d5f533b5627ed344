import type { Brew, BuildLine, Composition, Preparation, TrialBuild } from '@/lib/drink/trial'

/** A composition of nothing but what the test names; all else is a known zero. */
export const per100 = (over: Partial<Composition> = {}): Composition => ({
  water: 0,
  sugars: 0,
  freeSugars: 0,
  fat: 0,
  protein: 0,
  energyKcal: 0,
  coffeeSolids: 0,
  caffeineLow: 0,
  caffeineHigh: 0,
  sweetness: 0,
  ...over,
})

/** A line of 100 g of a liquid with every figure known, changed by what the test names. */
export const aLine = (over: Partial<BuildLine> = {}): BuildLine => ({
  key: over.name ?? 'line',
  name: 'Line',
  insteadOf: null,
  kind: 'other',
  form: 'liquid',
  role: '',
  targetGrams: 100,
  weighedGrams: null,
  toleranceGrams: null,
  typed: null,
  grind: null,
  temperature: 20,
  density: 1,
  costPerGram: 0,
  composition: per100(),
  allergens: {},
  labelRead: true,
  preparation: null,
  ...over,
})

export const sugar = (targetGrams: number, over: Partial<BuildLine> = {}) =>
  aLine({
    name: 'White sugar',
    kind: 'sweetener',
    form: 'powder',
    density: null,
    targetGrams,
    costPerGram: 0.0012,
    composition: per100({ sugars: 100, freeSugars: 100, sweetness: 100, energyKcal: 387 }),
    ...over,
  })

export const water = (targetGrams: number, over: Partial<BuildLine> = {}) =>
  aLine({ name: 'Water', kind: 'water', targetGrams, density: null, composition: null, ...over })

export const ice = (targetGrams: number, over: Partial<BuildLine> = {}) =>
  aLine({
    name: 'Ice',
    kind: 'ice',
    form: 'ice',
    targetGrams,
    density: null,
    temperature: null,
    composition: null,
    ...over,
  })

export const grounds = (targetGrams: number, over: Partial<BuildLine> = {}) =>
  aLine({
    name: 'Roast coffee',
    kind: 'coffee',
    form: 'grounds',
    targetGrams,
    density: null,
    temperature: null,
    costPerGram: 0.018,
    composition: per100({ coffeeSolids: null, caffeineLow: 1100, caffeineHigh: 1200 }),
    ...over,
  })

export const aBrew = (over: Partial<Brew> = {}): Brew => ({
  method: 'plunger pot',
  brewing: 'immersion',
  ratioKind: 'water-in',
  ratio: 10,
  retention: 2,
  extractionPercent: 21,
  strengthPercent: null,
  waterTemperature: null,
  seconds: null,
  ...over,
})

export const aBatch = (inputs: readonly BuildLine[], over: Partial<Preparation> = {}): Preparation => ({
  name: 'Syrup',
  kind: 'syrup',
  batch: 'S-1',
  inputs,
  outputGrams: inputs.reduce((all, line) => all + line.targetGrams, 0),
  brixMeasured: null,
  densityMeasured: null,
  brew: null,
  storageTemperature: 5,
  ...over,
})

export const aTrial = (lines: readonly BuildLine[], over: Partial<TrialBuild> = {}): TrialBuild => ({
  name: 'Trial',
  brew: null,
  coffeeTemperature: 85,
  iceTemperature: 0,
  vessel: null,
  level: null,
  lines,
  beside: [],
  money: {
    currency: 'coins',
    wasteFraction: null,
    packagingCost: null,
    targetCostFraction: null,
    taxFraction: null,
    menuPrice: null,
    fixedCost: null,
  },
  room: null,
  allergenList: 'eu',
  ...over,
})
