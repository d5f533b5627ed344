/** g: below this a spoon says nothing, and a scale is needed. */
const LEAST_GRAMS = 2

/** Level teaspoons, to a quarter, and what they weigh: g. */
export interface HomeMeasure {
  readonly spoons: number
  readonly grams: number
}

/**
 * How many level teaspoons are this, for somebody without a scale?
 *
 *     spoons = grams / spoon, to the nearest quarter
 *
 * @param grams    to dose
 * @param spoonMg  mg in a level teaspoon of it, as the house weighed it; null where it did not
 * @returns        null below 2 g, where nobody weighed that spoon, and where it is no quarter of one: then it stays in grams
 *
 * Source   common practice, no source; bulk weights vary by half (brown sugar 3.0 to 4.6 g), so no table is used
 * Checked  test/unit/drink/home-measure.test.ts
 */
export function homeMeasure(grams: number, spoonMg: number | null): HomeMeasure | null {
  if (spoonMg === null || !(spoonMg > 0) || !(grams >= LEAST_GRAMS)) return null
  const spoon = spoonMg / 1000
  const spoons = Math.round((4 * grams) / spoon) / 4
  return spoons > 0 ? { spoons, grams: spoons * spoon } : null
}

/** ml; NIST Handbook 44, appendix C: 1 cup is 236.5882 ml. */
const US_CUP = 236.5882365
/** A rounded cup may not be further off than this share of what is asked for. */
const CUP_SLIP = 0.05

/**
 * How many US cups are this, for somebody with a measuring cup?
 *
 *     cups = ml / 236.588, to the nearest quarter
 *
 * @param ml  to pour, of a known density
 * @returns   null where the nearest quarter is more than 5 % off: then it stays in millilitres
 *
 * Source   NIST Handbook 44, appendix C; the 5 % are common practice, no source
 * Checked  test/unit/drink/home-measure.test.ts
 */
export function homeCups(ml: number): number | null {
  const cups = Math.round((4 * ml) / US_CUP) / 4
  return cups > 0 && Math.abs(cups * US_CUP - ml) <= CUP_SLIP * ml ? cups : null
}
