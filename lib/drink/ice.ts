import { demand } from '@/lib/base/demand'

/** J/g to melt ice at 0 °C. */
export const MELTING_HEAT = 333.55
/** J/(g·K). */
export const WATER_HEAT = 4.186
/** J/(g·K). */
export const ICE_HEAT = 2.05
/** W/K into a thin 16 US fl oz vessel in still air: an estimate. */
export const USUAL_HEAT_LEAK = 0.35
/** °C, of a room nobody measured. */
export const USUAL_ROOM = 25

/** A liquid poured on ice: grams, °C, J/(g·K). */
export type WarmLiquid = { readonly grams: number; readonly celsius: number; readonly heat: number }

/** What ice does to a drink, before the room warms it. `lacking`: J that would bring ice still below 0 °C up to it. */
export type Melt = {
  readonly melted: number
  readonly iceLeft: number
  readonly celsius: number
  readonly lacking: number
}

/**
 * How much ice melts, and how cold does the drink get?
 *
 *     Q = Σ m c T,   S = m_ice · 2.05 · |T_ice|,   melt = (Q − S) / 333.55, kept within 0 and m_ice
 *     lacking = S − Q where the drink cannot warm its ice
 *     some ice left:  T = 0;   all gone:  T = (Q − S − m_ice · 333.55) / (Σ m c + m_ice · 4.186)
 *
 * @param liquids     grams ≥ 0, °C, J/(g·K) > 0
 * @param iceGrams    0 or more
 * @param iceCelsius  0 or below
 * @throws RangeError  a negative mass, warm ice, or no liquid and no ice at all
 *
 * Source   heat balance from first principles; constants as in food-engineering handbooks
 * Checked  test/reference/ice-heat-balance.test.ts
 * Limits   No heat from room or vessel. A sweet drink settles a little below 0 °C and melts about 2 g more. Liquids
 *          colder than their ice can cool to are reported at 0 °C.
 */
export function meltBalance(liquids: readonly WarmLiquid[], iceGrams: number, iceCelsius: number): Melt {
  demand(iceGrams >= 0, `ice must not be negative, got ${iceGrams}`)
  demand(iceCelsius <= 0, `ice is at 0 °C or colder, got ${iceCelsius}`)
  let warmth = 0
  let capacity = 0
  for (const { grams, celsius, heat } of liquids) {
    demand(grams >= 0 && heat > 0, `a liquid needs a mass of 0 or more and a heat above 0, got ${grams} and ${heat}`)
    warmth += grams * heat * celsius
    capacity += grams * heat
  }
  demand(capacity + iceGrams > 0, `something must be in the glass, got ${capacity + iceGrams}`)
  const spare = warmth - iceGrams * ICE_HEAT * -iceCelsius
  const melted = Math.min(iceGrams, Math.max(0, spare / MELTING_HEAT))
  if (melted < iceGrams) return { melted, iceLeft: iceGrams - melted, celsius: 0, lacking: Math.max(0, -spare) }
  // A share that was rounded up to all of the ice leaves a warmth a rounding below nothing.
  const left = Math.max(0, spare - iceGrams * MELTING_HEAT)
  return { melted, iceLeft: 0, celsius: left / (capacity + iceGrams * WATER_HEAT), lacking: 0 }
}

/**
 * How much more ice has the room melted after some minutes?
 *
 *     m = min(iceLeft, (60 · minutes · hA · T_room − lacking) / 333.55), 0 while the ice is still being warmed
 *
 * @param iceLeft   g after `meltBalance`
 * @param celsius   of the room, 0 or more
 * @param heatLeak  hA, W/K
 * @param lacking   J after `meltBalance`, 0 or more
 *
 * Source   heat balance; hA 0.35 in still air and 0.6 when held in humid air are estimates
 * Checked  test/reference/ice-heat-balance.test.ts
 * Limits   Strain and weigh the ice at 0, 5, 10 and 20 minutes once, and fit hA for your own vessel.
 */
export function roomMelt(iceLeft: number, minutes: number, celsius: number, heatLeak: number, lacking: number): number {
  demand(lacking >= 0, `what the ice lacks must not be negative, got ${lacking}`)
  demand(iceLeft >= 0 && minutes >= 0, `ice and minutes must not be negative, got ${iceLeft} and ${minutes}`)
  demand(celsius >= 0 && heatLeak >= 0, `room and heat leak must not be negative, got ${celsius} and ${heatLeak}`)
  return Math.min(iceLeft, Math.max(0, 60 * minutes * heatLeak * celsius - lacking) / MELTING_HEAT)
}

/** Which heat leak does a strained weight show? hA = melted · 333.55 / (60 · minutes · T_room). @throws RangeError  no time, or a cold room */
export function measuredHeatLeak(melted: number, minutes: number, celsius: number): number {
  demand(minutes > 0 && celsius > 0, `minutes and room must be above 0, got ${minutes} and ${celsius}`)
  return (melted * MELTING_HEAT) / (60 * minutes * celsius)
}

/**
 * How much heat does a syrup hold?
 *
 *     c = 4.184 − 2.971 w + 0.460 w + 0.0075 w t      J/(g·K)
 *
 * @param brix     100 w, 0 to 100
 * @param celsius  t
 *
 * Source   published formula for pure sucrose solutions
 * Checked  test/reference/ice-heat-balance.test.ts
 */
export function syrupHeat(brix: number, celsius: number): number {
  demand(brix >= 0 && brix <= 100, `Brix must lie between 0 and 100, got ${brix}`)
  const w = brix / 100
  return 4.184 - 2.971 * w + 0.46 * w + 0.0075 * w * celsius
}

/** How much heat does any other food hold? c = 4.19 p + 0.84 (1 − p), p its share of water; a rough published rule. */
export function foodHeat(waterFraction: number): number {
  demand(waterFraction >= 0 && waterFraction <= 1, `share of water must lie between 0 and 1, got ${waterFraction}`)
  return 4.19 * waterFraction + 0.84 * (1 - waterFraction)
}
