import { demand } from '@/lib/base/demand'
import { brixOfDensity, waterDensity } from './density'

/** Grams of granulated sugar in 1 ml as it is poured (200 g in a US cup of 236.5882365 ml). */
const GRANULATED_BULK = 200 / 236.5882365

/**
 * What Brix do sugar and water make, by mass?
 *
 *     Bx = 100 · S / (S + W)
 *
 * @param sugarGrams  S, pure sugar, 0 or more
 * @param waterGrams  W, all water, 0 or more; not both 0
 * @throws RangeError  a negative mass, or nothing at all
 *
 * Source   definition of degrees Brix
 * Checked  test/reference/icumsa-sps4-density.test.ts
 */
export function brixByMass(sugarGrams: number, waterGrams: number): number {
  demand(sugarGrams >= 0, `sugar must not be negative, got ${sugarGrams}`)
  demand(waterGrams >= 0, `water must not be negative, got ${waterGrams}`)
  demand(sugarGrams + waterGrams > 0, `sugar and water together must weigh more than 0, got ${sugarGrams + waterGrams}`)
  return 100 * (sugarGrams / (sugarGrams + waterGrams))
}

/**
 * What Brix do sugar and water make, measured by volume?
 *
 *     S = V_sugar · bulk,   W = V_water · ρ_water(20 °C),   then by mass
 *
 * @param sugarMl  poured, not packed
 * @param bulk     g/ml of the dry sugar as poured
 *
 * Source   USDA household weight, 200 g per US cup
 * Checked  test/reference/icumsa-sps4-density.test.ts
 * Limits   Bulk varies with grain and hand; brown sugar by half again. State a syrup by mass.
 */
export function brixByVolume(sugarMl: number, waterMl: number, bulk: number = GRANULATED_BULK): number {
  demand(bulk > 0, `bulk density must be above 0, got ${bulk}`)
  return brixByMass(sugarMl * bulk, (waterMl * waterDensity(20)) / 1000)
}

/**
 * What Brix does a hydrometer show?
 *
 *     S ≤ 1.17874:  Bx = 182.4601 S³ − 775.6821 S² + 1262.7794 S − 669.5622
 *     above:        the Brix whose ρ(20 °C) / ρ_water(20 °C) = S
 *
 * @param gravity  S, specific gravity 20 °C / 20 °C, from 1 up
 * @returns        Brix, or null when heavier than any sucrose solution
 * @throws RangeError  a gravity below 1
 *
 * Source   published polynomial of the NBS table, 0–40 Brix, RMS error 0.0009 Bx; above it ICUMSA SPS-4 inverted
 * Checked  test/reference/icumsa-sps4-density.test.ts
 * Limits   Coffee in the syrup, or alcohol, makes the reading meaningless.
 */
export function brixOfHydrometer(gravity: number): number | null {
  demand(gravity >= 1, `a hydrometer in syrup reads 1 or more, got ${gravity}`)
  const s = gravity
  if (s <= 1.17874) return Math.max(0, ((182.4601 * s - 775.6821) * s + 1262.7794) * s - 669.5622)
  return brixOfDensity(s * waterDensity(20), 20)
}
