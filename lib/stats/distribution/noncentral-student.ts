import { demand } from '@/lib/base/demand'
import { normalLower, normalQuantile, normalUpper } from './normal'
import { spreadRule } from './scaled-spread'
import { solveBetween } from './solve'
import { studentLower, studentUpper } from './student'

function checkShift(t: number, delta: number): void {
  demand(!Number.isNaN(t), `t must be a number, got ${t}`)
  demand(Number.isFinite(delta), `the noncentrality must be finite, got ${delta}`)
}

/**
 * How likely is a noncentral t reading at or below t?
 *
 *     T = (Z + δ) / √(χ²_ν/ν);   P(T ≤ t) = ∫ g(u) Φ(t eᵘ − δ) du,  g the density of ln √(χ²_ν/ν)
 *
 * @param t      any real number, ±Infinity allowed
 * @param df     degrees of freedom ν, real, > 0; Infinity is the normal with mean δ
 * @param delta  noncentrality δ, finite
 * @throws RangeError  t not a number, df not above 0, delta not finite
 *
 * Source   Johnson, Kotz and Balakrishnan (1995), Continuous Univariate Distributions 2, chapter 31
 * Checked  test/reference/distribution-grids.test.ts (absolute 1e-10)
 * Cost     points of the rule grow with |δ| and with 1/√ν below ν = 1
 */
export function noncentralStudentLower(t: number, df: number, delta: number): number {
  checkShift(t, delta)
  if (delta === 0) return studentLower(t, df)
  if (Math.abs(t) === Infinity) return t > 0 ? 1 : 0
  return integrate(t, df, delta, normalLower)
}

/**
 * How likely is a noncentral t reading above t? The power of a one-sided t test. Summed from positive terms.
 *
 * @param t      any real number, ±Infinity allowed
 * @param df     degrees of freedom, real, > 0; Infinity is the normal with mean delta
 * @param delta  noncentrality, finite
 * @throws RangeError  t not a number, df not above 0, delta not finite
 *
 * Checked  test/reference/distribution-grids.test.ts (absolute 1e-10), test/reference/cohen-1988-power.test.ts
 */
export function noncentralStudentUpper(t: number, df: number, delta: number): number {
  checkShift(t, delta)
  if (delta === 0) return studentUpper(t, df)
  if (Math.abs(t) === Infinity) return t > 0 ? 0 : 1
  return integrate(t, df, delta, normalUpper)
}

function integrate(t: number, df: number, delta: number, tail: (z: number) => number): number {
  if (t === 0) {
    demand(df > 0, `degrees of freedom must be above 0, got ${df}`)
    return tail(-delta)
  }
  let sum = 0
  for (const { ratio, weight } of spreadRule(df, 0.5 / (1 + Math.abs(delta)))) sum += weight * tail(t * ratio - delta)
  return Math.min(1, sum)
}

/**
 * Below which t do a share p of noncentral t readings lie?
 *
 * False position between ends found by doubling.
 *
 * @param p      0 ≤ p ≤ 1; the ends give ∓Infinity
 * @param df     degrees of freedom, real, > 0
 * @param delta  noncentrality, finite
 * @throws RangeError  p outside [0, 1], df not above 0, delta not finite
 *
 * Checked  test/reference/mpmath-2026-tails.test.ts
 */
export function noncentralStudentQuantile(p: number, df: number, delta: number): number {
  demand(p >= 0 && p <= 1, `a share must lie between 0 and 1, got ${p}`)
  checkShift(0, delta)
  demand(df > 0, `degrees of freedom must be above 0, got ${df}`)
  if (p === 0 || p === 1) return p === 0 ? -Infinity : Infinity
  const gap = (t: number) =>
    p < 0.5 ? noncentralStudentLower(t, df, delta) - p : 1 - p - noncentralStudentUpper(t, df, delta)
  const centre = delta + normalQuantile(p)
  let low = centre - 1
  let high = centre + 1
  for (let reach = 2; gap(low) > 0; reach *= 2) low = centre - reach
  for (let reach = 2; gap(high) < 0; reach *= 2) high = centre + reach
  return solveBetween(gap, low, high)
}
