import type { Composition } from './trial'
import { sucroseDensity } from './density'
import type { Problem } from './figure'
import { written } from './figure'
import { findUnit } from './unit'

/** g/ml between which a drinkable liquid lies. */
export const LIQUID_DENSITY = { least: 0.9, most: 1.5 } as const

/** g/ml between which anything measured by volume lies: from a light powder in a spoon to the heaviest syrup with room to spare. */
export const FOOD_DENSITY = { least: 0.1, most: 3 } as const

/** Can anything one pours or spoons weigh this much? @param density g/ml */
export const isFoodDensity = (density: number): boolean => density >= FOOD_DENSITY.least && density <= FOOD_DENSITY.most

/** A syrup further from its Brix than this, in g/ml, is looked at again; common practice. */
const DENSITY_DOUBT = 0.02

/** Things that may be wrong, the right ones among them as false. */
type Found = (Problem | false)[]

/** A problem if it is one. @param isWrong whether the message is to be shown beside the field */
export const wrong = (isWrong: boolean, field: string, message: string): Problem | false =>
  isWrong && { field, message, doubt: false }

/** A doubt if there is one. @param isDoubtful whether to ask the person to look again */
export const doubtful = (isDoubtful: boolean, field: string, message: string): Problem | false =>
  isDoubtful && { field, message, doubt: true }

/** The problems among what was looked at. */
export const only = (found: Found): readonly Problem[] => found.filter((one): one is Problem => one !== false)

/**
 * Can this density be that of a liquid, and of this syrup?
 *
 * @param density  g/ml, null = not given
 * @param brix     g sugar per 100 g, null when it is no syrup or not known
 *
 * Source   0.90–1.50 g/ml and 0.02 are common practice; ICUMSA SPS-4 for the syrup's own density at 20 °C
 * Checked  test/unit/drink/problem.test.ts
 * Limits   Published weights per spoon are not densities: agave syrup at 0.93 g/ml is in a national table.
 */
export function densityProblems(
  field: string,
  name: string,
  density: number | null,
  brix: number | null,
): readonly Problem[] {
  if (density === null) return []
  const { least, most } = LIQUID_DENSITY
  if (!(density >= least && density <= most)) {
    const message = `${name}: a liquid weighs between ${least} and ${most} g per ml, not ${written(density, 3)}.`
    return [{ field, message, doubt: false }]
  }
  if (brix === null || !(brix >= 0 && brix <= 100)) return []
  const expected = sucroseDensity(brix, 20) / 1000
  if (Math.abs(density - expected) <= DENSITY_DOUBT) return []
  const said = `${written(density, 3)} g per ml does not go with ${written(brix, 1)} g sugar per 100 g`
  const message = `${name}: ${said}, which weighs about ${written(expected, 3)}. Weigh 100 ml to be sure.`
  return [{ field, message, doubt: true }]
}

/** Is a price tied to a pack? @param price in currency, null = none @param packGrams null = no pack given */
export function packProblems(
  price: number | null,
  packAmount: number | null,
  packUnit: string | null,
): readonly Problem[] {
  if (price === null) return []
  const unit = packUnit === null ? null : findUnit(packUnit)
  return only([
    wrong(!(price >= 0), 'price', 'A price must not be negative.'),
    wrong(
      packAmount === null || !(packAmount > 0) || unit === null,
      'pack',
      'A price needs a pack: how much do you get for it?',
    ),
  ])
}

/** kcal in 100 g of pure fat: no food holds more. USDA SR, lard (171401). */
const MOST_ENERGY = 902

/** Can a composition per 100 g be true? */
export function compositionProblems(field: string, name: string, per100: Composition): readonly Problem[] {
  const { water, sugars, freeSugars, fat, protein, coffeeSolids, caffeineLow, caffeineHigh } = per100
  const grams = { water, sugars, freeSugars, fat, protein, coffeeSolids }
  const found: Found = Object.entries(grams).map(([what, value]) =>
    wrong(
      value !== null && !(value >= 0 && value <= 100),
      `${field}.${what}`,
      `${name}: ${WORDS[what] ?? what} must lie between 0 and 100 g per 100 g.`,
    ),
  )
  const sum = (water ?? 0) + (sugars ?? 0) + (fat ?? 0) + (protein ?? 0)
  return only([
    ...found,
    wrong(sum > 101, field, `${name}: water, sugars, fat and protein come to ${written(sum, 1)} g in 100 g.`),
    wrong(
      (freeSugars ?? 0) > (sugars ?? 100) + 1e-9,
      `${field}.freeSugars`,
      `${name}: free sugars are part of the sugars, they cannot be more.`,
    ),
    wrong(
      caffeineLow !== null && caffeineHigh !== null && caffeineLow > caffeineHigh,
      `${field}.caffeineLow`,
      `${name}: the lower caffeine figure is above the higher.`,
    ),
    wrong(
      (per100.energyKcal ?? 0) > MOST_ENERGY,
      `${field}.energyKcal`,
      `${name}: 100 g of pure fat hold ${MOST_ENERGY} kcal, and no food more. Is ${written(per100.energyKcal ?? 0, 0)} the figure in kJ?`,
    ),
    doubtful(
      per100.energyKcal !== null && per100.energyKcal >= 0 && per100.energyKcal < leastEnergy(per100),
      `${field}.energyKcal`,
      `${name}: its fat, protein and sugars alone bring about ${written(leastEnergy(per100) / ENERGY_DOUBT, 0)} kcal. Read the label again.`,
    ),
    doubtful(
      isEnergyInKilojoules(per100),
      `${field}.energyKcal`,
      `${name}: its nutrients bring far less than ${written(per100.energyKcal ?? 0, 0)} kcal. Is it the figure in kJ?`,
    ),
    wrong(
      [caffeineLow, caffeineHigh, per100.energyKcal, per100.sweetness].some((v) => v !== null && !(v >= 0)),
      field,
      `${name}: a figure per 100 g must not be negative.`,
    ),
  ])
}

/** A label rounds, and factors differ by food: less than this share of the sum is looked at again. Common practice, no source. */
const ENERGY_DOUBT = 0.7

/**
 * kcal below which a stated energy does not go with what is stated beside it; what is not stated brings none here.
 *
 *     0.7 · (9 fat + 4 protein + 4 sugars)
 *
 * Source   Regulation (EU) 1169/2011, Annex XIV, for 9, 4 and 4 kcal per g
 */
function leastEnergy(per100: Composition): number {
  return ENERGY_DOUBT * statedEnergy(per100)
}

function statedEnergy({ fat, protein, sugars }: Composition): number {
  return 9 * (fat ?? 0) + 4 * (protein ?? 0) + 4 * (sugars ?? 0)
}

/**
 * Is a stated energy what a label says in kJ, 4.184 times as much?
 *
 *     with the water stated    above (9 fat + 4 protein + 7 of all the rest) / 0.7, as if the rest were alcohol
 *     without it               3.5 to 5 times what fat, protein and sugars bring, all three stated
 *
 * Source   Regulation (EU) 1169/2011, Annex XIV, for 9, 4 and 7 kcal per g; 3.5 and 5 about 4.184: common practice, no source
 */
function isEnergyInKilojoules(per100: Composition): boolean {
  const { energyKcal, water, fat, protein, sugars } = per100
  if (energyKcal === null || energyKcal > MOST_ENERGY || fat === null || protein === null) return false
  if (water !== null) {
    const rest = Math.max(0, 100 - water - fat - protein)
    return energyKcal > (9 * fat + 4 * protein + 7 * rest) / ENERGY_DOUBT
  }
  const stated = statedEnergy(per100)
  return sugars !== null && energyKcal >= 3.5 * stated && energyKcal <= 5 * stated && stated > 0
}

const WORDS: Readonly<Record<string, string>> = {
  freeSugars: 'free sugars',
  coffeeSolids: 'coffee solids',
  sugars: 'sugars (Brix)',
}
