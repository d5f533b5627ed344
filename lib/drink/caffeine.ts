import { demand } from '@/lib/base/demand'

/** mg: one dose, and one day, that raise no concern for a healthy adult; and one day while pregnant. */
export const CAFFEINE_GUIDES = { singleDose: 200, adultDay: 400, pregnantDay: 200 } as const

/** mg of caffeine between two ends. */
export type CaffeineRange = { readonly low: number; readonly middle: number; readonly high: number }

/** The model is no better than this. */
const CAFFEINE_SPREAD = 0.3

/**
 * How much of the caffeine in the coffee gets into the water?
 *
 * Source   from memory: 0.9–1.0 immersion and drip, 0.7–0.85 espresso; middles taken. All of instant.
 */
export const CAFFEINE_RELEASE = { immersion: 0.95, percolation: 0.95, espresso: 0.775, dissolved: 1 } as const

/**
 * How much caffeine does a brewed dose bring?
 *
 *     middle = D · 1000 · c · e · served;   low and high = middle ∓ 30 %
 *
 * @param doseGrams  D, dry coffee
 * @param content    c, fraction of dry mass (arabica about 0.0115, robusta about 0.021)
 * @param release    e, fraction that dissolves
 * @param served     fraction of the liquid that is in the glass
 * @throws RangeError  a negative dose or a fraction outside 0–1
 *
 * Source   model and spread are estimates, held against published measurements of cups and pots
 * Checked  test/reference/caffeine-measured.test.ts
 * Limits   A range to warn with, never a dose to rely on: the upper end may lie above all that the coffee holds.
 *          Decaffeinated is not zero.
 */
export function caffeineOfDose(doseGrams: number, content: number, release: number, served: number): CaffeineRange {
  demand(doseGrams >= 0, `dose must not be negative, got ${doseGrams}`)
  for (const part of [content, release, served]) demand(part >= 0 && part <= 1, `a fraction lies in 0–1, got ${part}`)
  const middle = doseGrams * 1000 * content * release * served
  return { low: middle * (1 - CAFFEINE_SPREAD), middle, high: middle * (1 + CAFFEINE_SPREAD) }
}
