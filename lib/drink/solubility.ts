import { demand } from '@/lib/base/demand'

/**
 * How much sucrose can water hold before it crystallises?
 *
 *     c(t) = 64.447 + 0.08222 t + 1.6169e−3 t² − 1.558e−6 t³ − 4.63e−8 t⁴      g per 100 g of solution
 *
 * @param celsius  t, 0 to 100
 * @throws RangeError  a temperature outside 0–100
 *
 * Source   Bubnik & Kadlec (1995)
 * Checked  test/reference/bubnik-1995-solubility.test.ts
 * Limits   Pure sucrose. Invert sugar, glucose syrup or acid raise the limit. Older tables differ by up to 0.4.
 */
export function sucroseSolubility(celsius: number): number {
  demand(celsius >= 0 && celsius <= 100, `temperature must lie between 0 and 100 °C, got ${celsius}`)
  const t = celsius
  return 64.447 + t * (0.08222 + t * (1.6169e-3 + t * (-1.558e-6 + t * -4.63e-8)))
}

/** Where a syrup stands against its limit at the temperature it is kept at. */
export type Crystals = 'stays-clear' | 'near-limit' | 'will-crystallise'

/**
 * Will this syrup crystallise where it is kept?
 *
 *     will-crystallise when Brix > c(t);  near-limit within 1 Brix below it
 *
 * @param brix     0 to 100
 * @param celsius  storage temperature, 0 to 100
 *
 * Source   Bubnik & Kadlec (1995); the margin of 1 Brix is common practice, about the spread between tables
 * Checked  test/unit/drink/solubility.test.ts
 * Limits   Says that it may, not when: a clean bottle can stay clear for weeks.
 */
export function crystalsAt(brix: number, celsius: number): Crystals {
  demand(brix >= 0 && brix <= 100, `Brix must lie between 0 and 100, got ${brix}`)
  const limit = sucroseSolubility(celsius)
  if (brix > limit) return 'will-crystallise'
  return brix > limit - 1 ? 'near-limit' : 'stays-clear'
}
