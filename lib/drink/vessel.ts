import { demand } from '@/lib/base/demand'
import { waterDensity } from './density'

/** g/ml of ice at 0 °C. */
export const ICE_DENSITY = 0.9167

/**
 * How high does the drink stand at the moment of building?
 *
 *     V = V_liquid + m_ice / 0.9167      all ice held under: the worst case, it shrinks as it melts
 *
 * @param liquidMl  0 or more
 * @param iceGrams  0 or more
 *
 * Source   displacement; ice density from memory
 * Checked  test/reference/vessel-displacement.test.ts
 * Limits   Loose ice does not pack: 200 g fill 333–400 ml with gaps. Dose ice by weight, not to the top.
 */
export function volumeUnder(liquidMl: number, iceGrams: number): number {
  demand(liquidMl >= 0 && iceGrams >= 0, `volumes must not be negative, got ${liquidMl} and ${iceGrams}`)
  return liquidMl + iceGrams / ICE_DENSITY
}

/** Where does the liquid stand when the ice floats? V = V_liquid + m_ice · V_liquid / m_liquid (Archimedes). */
export function floatingLine(liquidMl: number, liquidGrams: number, iceGrams: number): number {
  demand(liquidMl > 0 && liquidGrams > 0, `ice floats in a liquid, got ${liquidMl} ml and ${liquidGrams} g`)
  return liquidMl + (iceGrams * liquidMl) / liquidGrams
}

/**
 * How large is a vessel, from the water that fills it?
 *
 *     V = m / ρ_water(t)
 *
 * @param waterGrams  net of the empty vessel, above 0
 * @param celsius     of the water, 0 to 100
 *
 * Source   ICUMSA SPS-4 water term
 * Checked  test/unit/drink/vessel.test.ts
 */
export function brimOfWater(waterGrams: number, celsius: number): number {
  demand(waterGrams > 0, `water must weigh more than 0, got ${waterGrams}`)
  return (waterGrams * 1000) / waterDensity(celsius)
}

/** Does it fit? The fill line is a wish, the brim is physics. */
export type Fit = 'fits' | 'over-fill-line' | 'over-brim'

/** Does this volume fit? @param fillMl null when the vessel has no line */
export function fitOf(volumeMl: number, brimMl: number, fillMl: number | null): Fit {
  demand(brimMl > 0, `a vessel holds more than 0 ml, got ${brimMl}`)
  if (volumeMl > brimMl) return 'over-brim'
  return fillMl !== null && volumeMl > fillMl ? 'over-fill-line' : 'fits'
}
