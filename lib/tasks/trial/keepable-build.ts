import 'server-only'
import type { BuildLine, Preparation, TrialBuild } from '@/lib/drink/trial'
import { preparationsWithin } from '@/lib/drink/nesting'
import { MOST_KEPT } from '@/lib/forms/number-fields'

type Kept = readonly [path: string, value: number | null | undefined, times: number]

/** Where a trial from a file holds a number that cannot be kept: one more than a column holds, or a mass of nothing. */
export function firstNotKept(build: TrialBuild): { readonly path: string; readonly message: string } | null {
  const { brew } = build
  const numbers: readonly Kept[] = [
    ['brew.ratio', brew?.ratio, 1000],
    ['brew.retention', brew?.retention, 1000],
    ['brew.waterTemperature', brew?.waterTemperature, 10],
    ['brew.seconds', brew?.seconds, 1],
    ['coffeeTemperature', build.coffeeTemperature, 10],
    ['iceTemperature', build.iceTemperature, 10],
    ...build.lines.flatMap((line, place) => numbersOf(line, `lines[${place}]`)),
    ...preparationsWithin(build.lines).flatMap((one) => numbersOfPreparation(one)),
  ]
  for (const [path, value, times] of numbers) {
    if (value === null || value === undefined) continue
    if (Math.abs(Math.round(value * times)) > MOST_KEPT) return { path, message: 'is more than can be kept' }
    if (/Grams$/.test(path) && value > 0 && Math.round(value * times) === 0)
      return { path, message: 'is less than a milligram: too little to be kept' }
  }
  return null
}

function numbersOf({ composition, ...line }: BuildLine, path: string): readonly Kept[] {
  return [
    [`${path}.targetGrams`, line.targetGrams, 1000],
    [`${path}.weighedGrams`, line.weighedGrams, 1000],
    [`${path}.toleranceGrams`, line.toleranceGrams, 1000],
    [`${path}.temperature`, line.temperature, 10],
    [`${path}.density`, line.density, 1_000_000],
    [`${path}.typed.density`, line.typed?.density, 1_000_000],
    ['partGrams', line.typed?.partGrams, 1_000_000],
    [`${path}.composition.energyKcal`, composition?.energyKcal, 10],
    [`${path}.composition.caffeineLow`, composition?.caffeineLow, 10],
    [`${path}.composition.caffeineHigh`, composition?.caffeineHigh, 10],
    [`${path}.composition.sweetness`, composition?.sweetness, 1],
  ]
}

function numbersOfPreparation(preparation: Preparation): readonly Kept[] {
  const path = `preparation “${preparation.name}”`
  return [
    [`${path}, outputGrams`, preparation.outputGrams, 1000],
    [`${path}, densityMeasured`, preparation.densityMeasured, 1_000_000],
    [`${path}, storageTemperature`, preparation.storageTemperature, 10],
    [`${path}, retention`, preparation.retention, 1000],
    [`${path}, brew.retention`, preparation.brew?.retention, 1000],
    ...preparation.inputs.flatMap((line, place) => numbersOf(line, `${path}, inputs[${place}]`)),
  ]
}
