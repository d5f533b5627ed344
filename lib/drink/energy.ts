import { demand } from '@/lib/base/demand'

/** kJ in one kcal, the thermochemical calorie. */
export const KILOJOULES = 4.184

/**
 * How much energy by the general factors?
 *
 *     kcal = 4 · protein + 4 · carbohydrate + 9 · fat
 *
 * @param grams  each 0 or more
 *
 * Source   Atwater general factors
 * Checked  test/unit/drink/energy.test.ts
 * Limits   Tables use factors of their own per food (sucrose 3.87, milk fat 8.79): a label or table value comes first.
 */
export function atwaterEnergy(grams: {
  readonly protein: number
  readonly carbohydrate: number
  readonly fat: number
}): number {
  const { protein, carbohydrate, fat } = grams
  demand(
    protein >= 0 && carbohydrate >= 0 && fat >= 0,
    `grams must not be negative, got ${protein}, ${carbohydrate}, ${fat}`,
  )
  return 4 * protein + 4 * carbohydrate + 9 * fat
}
