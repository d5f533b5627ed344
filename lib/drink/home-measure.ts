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
