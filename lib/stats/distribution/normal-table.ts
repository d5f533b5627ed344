import { lost } from '@/lib/base/lost'
import { normalDensity, normalLower } from './normal'

const PER_UNIT = 64
const REACH = 9.5

const LOWER = new Float64Array(2 * REACH * PER_UNIT + 1)
const DENSITY = new Float64Array(2 * REACH * PER_UNIT + 1)
for (let i = 0; i < LOWER.length; i++) {
  LOWER[i] = normalLower(i / PER_UNIT - REACH)
  DENSITY[i] = normalDensity(i / PER_UNIT - REACH)
}

/**
 * Φ(z) to an absolute 1e-15, ten times as fast as `normalLower`: for the inside of double integrals only.
 *
 *     Φ(c + d) = Φ(c) + φ(c) Σ_{j ≥ 0} (−1)ʲ He_j(c) d^(j+1) / (j+1)!,   c the nearest of 64 nodes a unit, six terms
 *
 * @param z  any real number; beyond ±9.5 the answer is 0 or 1
 *
 * Source   Abramowitz and Stegun 26.2.12 (Taylor series with Hermite polynomials)
 * Checked  test/unit/stats/distribution/normal-table.test.ts
 */
export function quickNormalLower(z: number): number {
  if (z <= -REACH) return 0
  if (z >= REACH) return 1
  const i = Math.round((z + REACH) * PER_UNIT)
  const c = i / PER_UNIT - REACH
  const d = z - c
  const c2 = c * c
  const he3 = c * (c2 - 3)
  const he4 = c2 * (c2 - 6) + 3
  const he5 = c * (c2 * (c2 - 10) + 15)
  const sum = 1 - (d / 2) * (c - (d / 3) * (c2 - 1 - (d / 4) * (he3 - (d / 5) * (he4 - (d / 6) * he5))))
  return (LOWER[i] ?? lost()) + (DENSITY[i] ?? lost()) * d * sum
}
