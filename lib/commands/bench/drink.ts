import { computeBuild } from '@/lib/drink/build'
import type { BuildLine, Preparation, TrialBuild } from '@/lib/drink/trial'
import { below, sayTail, timed, type Measured } from './measure'

function line(key: string, preparation: Preparation | null): BuildLine {
  return {
    key,
    name: `Part ${key}`,
    insteadOf: null,
    kind: 'other',
    form: 'liquid',
    role: 'other',
    targetGrams: 20,
    weighedGrams: null,
    toleranceGrams: null,
    typed: null,
    grind: null,
    temperature: 5,
    density: 1.1,
    costPerGram: 0.002,
    composition: {
      water: 80,
      sugars: 15,
      freeSugars: 15,
      fat: 1,
      protein: 1,
      energyKcal: 80,
      coffeeSolids: 0,
      caffeineLow: 0,
      caffeineHigh: 0,
      sweetness: 15,
    },
    allergens: { milk: 'contains' },
    labelRead: true,
    preparation,
  }
}

function nested(key: string, depth: number): Preparation {
  const inner = depth > 1 ? nested(`${key}.${depth}`, depth - 1) : null
  const inputs = [line(`${key}a`, inner), line(`${key}b`, null), line(`${key}c`, null)]
  const none = { brixMeasured: null, densityMeasured: 1.1, brew: null, storageTemperature: 5 }
  return { name: `Preparation ${key}`, kind: 'mix', batch: '1', inputs, outputGrams: 55, ...none }
}

export function benchDrink(): Measured[] {
  const build: TrialBuild = {
    name: 'Twenty lines, preparations three deep',
    brew: null,
    coffeeTemperature: 22,
    iceTemperature: -10,
    vessel: { name: 'Glass', brimMl: 473, fillMl: 450 },
    level: null,
    beside: [],
    lines: Array.from({ length: 20 }, (_, at) => line(String(at), at % 2 ? nested(String(at), 3) : null)),
    money: {
      currency: 'EUR',
      wasteFraction: 0.03,
      packagingCost: 0.14,
      targetCostFraction: 0.25,
      taxFraction: 0.12,
      menuPrice: 3.5,
      fixedCost: 1200,
    },
    room: null,
    allergenList: 'eu',
  }
  const warm = timed(() => computeBuild(build), 50, 51)
  const what = 'all figures of 20 lines, preparations three deep, warm, median'
  return [below({ part: 'drink', what, unit: 'ms', note: sayTail(warm) }, warm.median, 5)]
}
