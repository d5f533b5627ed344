import { demand } from '@/lib/base/demand'
import betaincinv from '@stdlib/math-base-special-betaincinv'
import gammaln from '@stdlib/math-base-special-gammaln'
import { incompleteBeta } from './incomplete-beta'
import { solveMonotone } from './solve'
import { stirlingRemainder } from './stirling'

function checkShape(a: number, b: number): void {
  demand(a > 0 && a < Infinity, `the first shape must be finite and above 0, got ${a}`)
  demand(b > 0 && b < Infinity, `the second shape must be finite and above 0, got ${b}`)
}

/**
 * ln B(a, b), the logarithm of the beta function, without losing digits when a or b is large.
 *
 *     B(a, b) = Γ(a) Γ(b) / Γ(a + b)
 *
 * @param a  > 0, finite
 * @param b  > 0, finite
 * @throws RangeError  a or b not above 0
 *
 * Source   NIST DLMF 5.12.1; Stirling remainders as in Loader (2000)
 * Checked  test/reference/mpmath-2026-tails.test.ts
 */
export function logBeta(a: number, b: number): number {
  checkShape(a, b)
  const small = Math.min(a, b)
  const large = Math.max(a, b)
  if (large < 16) return gammaln(small) + gammaln(large) - gammaln(small + large)
  const sum = small + large
  const remainders = stirlingRemainder(large) - stirlingRemainder(sum)
  const largeOverSum = -(large - 0.5) * Math.log1p(small / large) - small * Math.log(sum) + small + remainders
  return gammaln(small) + largeOverSum
}

/**
 * How likely is a beta reading at or below x?
 *
 *     I_x(a, b) = ∫₀ˣ t^(a−1) (1 − t)^(b−1) dt / B(a, b)
 *
 * @param x  0 ≤ x ≤ 1
 * @param a  shape, > 0
 * @param b  shape, > 0
 * @throws RangeError  x outside [0, 1], a or b not above 0
 *
 * Source   NIST DLMF 8.17
 * Checked  test/reference/distribution-grids.test.ts
 */
export function betaLower(x: number, a: number, b: number): number {
  demand(x >= 0 && x <= 1, `a beta reading must lie between 0 and 1, got ${x}`)
  checkShape(a, b)
  return incompleteBeta(x, a, b, false)
}

/**
 * How likely is a beta reading above x? The positive sum, not one minus the other tail.
 *
 * @param x  0 ≤ x ≤ 1
 * @param a  shape, > 0
 * @param b  shape, > 0
 * @throws RangeError  x outside [0, 1], a or b not above 0
 *
 * Checked  test/reference/distribution-grids.test.ts
 */
export function betaUpper(x: number, a: number, b: number): number {
  demand(x >= 0 && x <= 1, `a beta reading must lie between 0 and 1, got ${x}`)
  checkShape(a, b)
  return incompleteBeta(x, a, b, true)
}

/**
 * Below which x do a share p of beta readings lie?
 *
 * The library's answer, then Newton on ln I in ln x where x is small.
 *
 * @param p  0 ≤ p ≤ 1
 * @param a  shape, > 0
 * @param b  shape, > 0
 * @throws RangeError  p outside [0, 1], a or b not above 0
 *
 * Checked  test/reference/distribution-grids.test.ts, test/reference/mpmath-2026-tails.test.ts
 * Limits   an answer within 1e-16 of 1 is rounded to 1; ask for the mirrored quantile instead
 */
export function betaQuantile(p: number, a: number, b: number): number {
  demand(p >= 0 && p <= 1, `a share must lie between 0 and 1, got ${p}`)
  checkShape(a, b)
  if (p === 0 || p === 1) return p
  const start = betaincinv(p, a, b)
  if (!(start < 0.5) || p > 1e-12) return start
  const target = Math.log(p)
  const scale = logBeta(a, b)
  const first = start > 0 ? Math.log(start) : (target + scale + Math.log(a)) / a
  const found = solveMonotone(
    (u) => {
      const x = Math.min(1, Math.exp(u))
      const log = Math.log(betaLower(x, a, b))
      return { value: log - target, slope: Math.exp(a * u + (b - 1) * Math.log1p(-x) - scale - log) }
    },
    first,
    1e-6,
  )
  return Math.min(1, Math.exp(found))
}
