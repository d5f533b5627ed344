import { demand } from '@/lib/base/demand'

/** Grams a day that the guides name. The lower WHO figure is its conditional advice. */
export const SUGAR_GUIDES = { who: 50, whoLower: 25, fda: 50 } as const

/**
 * What share of a day's guide is this sugar?
 *
 *     share = g / guide      (0.74 = 74 %)
 *
 * @param freeGrams  free or added sugar, 0 or more; not the lactose of milk
 *
 * Source   WHO (2015), 10 % and 5 % of energy at 2000 kcal = 50 and 25 g free sugars; US FDA Daily Value 50 g added sugars
 * Checked  test/reference/sugar-guides.test.ts
 */
export function shareOfGuide(freeGrams: number, guide: keyof typeof SUGAR_GUIDES): number {
  demand(freeGrams >= 0, `sugar must not be negative, got ${freeGrams}`)
  return freeGrams / SUGAR_GUIDES[guide]
}

/** One sweetener's strength by mass against sucrose, with the range the table quotes. */
export type Sweetness = { readonly factor: number; readonly low: number; readonly high: number }

/**
 * How sweet is each sugar, by mass, against sucrose?
 *
 * Source   published table of relative sweetness (PMC10346066, table 2); where a range is printed, `factor` lies in it
 * Checked  test/unit/drink/sugar.test.ts
 * Limits   At about room temperature and 5–10 %. Cold and strength change it: taste at serving temperature.
 */
export const RELATIVE_SWEETNESS: Readonly<Record<string, Sweetness>> = {
  sucrose: { factor: 1, low: 1, high: 1 },
  fructose: { factor: 1.7, low: 1.2, high: 1.8 },
  invert: { factor: 1, low: 1, high: 1 },
  glucose: { factor: 0.74, low: 0.74, high: 0.8 },
  maltose: { factor: 0.33, low: 0.33, high: 0.5 },
  lactose: { factor: 0.16, low: 0.16, high: 0.2 },
  erythritol: { factor: 0.7, low: 0.7, high: 0.7 },
  xylitol: { factor: 1, low: 1, high: 1 },
  maltitol: { factor: 0.9, low: 0.9, high: 0.9 },
  sucralose: { factor: 600, low: 600, high: 600 },
  aspartame: { factor: 175, low: 175, high: 175 },
}

/** How much sucrose would taste as sweet? SE = Σ mᵢ · fᵢ. @param parts grams of each sugar and its factor */
export function sweetnessEquivalent(parts: readonly { readonly grams: number; readonly factor: number }[]): number {
  let equivalent = 0
  for (const { grams, factor } of parts) {
    demand(grams >= 0 && factor >= 0, `grams and factor must not be negative, got ${grams} and ${factor}`)
    equivalent += grams * factor
  }
  return equivalent
}
