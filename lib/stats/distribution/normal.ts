import { demand } from '@/lib/base/demand'
import erfc from '@stdlib/math-base-special-erfc'
import erfcinv from '@stdlib/math-base-special-erfcinv'

const ROOT_HALF = Math.SQRT1_2
const ROOT_TWO_PI = Math.sqrt(2 * Math.PI)

/**
 * How likely is a standard normal reading at or below z?
 *
 *     Φ(z) = ½ erfc(−z/√2)
 *
 * @param z  any real number, ±Infinity allowed
 * @throws RangeError  z is not a number
 *
 * Source   NIST DLMF 7.2.2
 * Checked  test/reference/distribution-grids.test.ts
 */
export function normalLower(z: number): number {
  demand(!Number.isNaN(z), `z must be a number, got ${z}`)
  return 0.5 * erfc(-z * ROOT_HALF)
}

/**
 * How likely is a standard normal reading above z?
 *
 * @param z  any real number, ±Infinity allowed
 * @throws RangeError  z is not a number
 *
 * Checked  test/reference/distribution-grids.test.ts
 */
export function normalUpper(z: number): number {
  demand(!Number.isNaN(z), `z must be a number, got ${z}`)
  return 0.5 * erfc(z * ROOT_HALF)
}

/**
 * How dense are standard normal readings at z?
 *
 *     φ(z) = e^(−z²/2) / √(2π)
 *
 * Checked  test/unit/stats/distribution/normal.test.ts
 */
export function normalDensity(z: number): number {
  return Math.exp(-0.5 * z * z) / ROOT_TWO_PI
}

/**
 * Below which z do a share p of standard normal readings lie?
 *
 * One Newton step after the library's start, on the smaller tail.
 *
 * @param p  0 ≤ p ≤ 1; the ends give ∓Infinity
 * @throws RangeError  p outside [0, 1]
 *
 * Checked  test/reference/distribution-grids.test.ts
 */
export function normalQuantile(p: number): number {
  demand(p >= 0 && p <= 1, `a share must lie between 0 and 1, got ${p}`)
  if (p === 0) return -Infinity
  if (p === 1) return Infinity
  if (p === 0.5) return 0
  const small = Math.min(p, 1 - p)
  const reach = Math.SQRT2 * erfcinv(2 * small)
  const tail = normalUpper(reach)
  const polished = tail > 1e-300 ? reach + (tail - small) / normalDensity(reach) : reach
  return p < 0.5 ? -polished : polished
}
