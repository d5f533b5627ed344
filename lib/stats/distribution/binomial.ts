import { demand } from '@/lib/base/demand'
import { betaLower, betaUpper } from './beta'
import { normalQuantile } from './normal'
import { deviancePart, stirlingRemainder } from './stirling'

function checkTrials(n: number, p: number): void {
  demand(Number.isInteger(n) && n >= 0, `the number of trials must be a whole number from 0, got ${n}`)
  demand(p >= 0 && p <= 1, `a share must lie between 0 and 1, got ${p}`)
}

/**
 * How likely are exactly k successes in n trials?
 *
 *     C(n, k) pᵏ (1 − p)ⁿ⁻ᵏ, by Loader's saddle point: Stirling remainders and deviances
 *
 * @param k  a whole number; outside 0 … n the answer is 0
 * @param n  trials, a whole number ≥ 0
 * @param p  chance of success, 0 ≤ p ≤ 1
 * @throws RangeError  k or n not whole, n below 0, p outside [0, 1]
 *
 * Source   Loader (2000), Fast and accurate computation of binomial probabilities
 * Checked  test/reference/mpmath-2026-tails.test.ts
 */
export function binomialMass(k: number, n: number, p: number): number {
  demand(Number.isInteger(k), `a count must be a whole number, got ${k}`)
  checkTrials(n, p)
  if (k < 0 || k > n) return 0
  if (p === 0 || p === 1) return k === (p === 0 ? 0 : n) ? 1 : 0
  if (k === 0) return Math.exp(n * Math.log1p(-p))
  if (k === n) return Math.exp(n * Math.log(p))
  const q = 1 - p
  const log =
    stirlingRemainder(n) -
    stirlingRemainder(k) -
    stirlingRemainder(n - k) -
    deviancePart(k, n * p) -
    deviancePart(n - k, n * q)
  return Math.exp(log) * Math.sqrt(n / (2 * Math.PI * k * (n - k)))
}

/**
 * How likely are at most k successes in n trials?
 *
 *     P(X ≤ k) = 1 − I_p(k + 1, n − k)
 *
 * @param k  a count; a fraction counts as the whole number below it
 * @param n  trials, a whole number ≥ 0
 * @param p  chance of success, 0 ≤ p ≤ 1
 * @throws RangeError  k is not a number, n not whole, p outside [0, 1]
 *
 * Source   NIST DLMF 8.17.5
 * Checked  test/reference/distribution-grids.test.ts
 */
export function binomialLower(k: number, n: number, p: number): number {
  demand(!Number.isNaN(k), `a count must be a number, got ${k}`)
  checkTrials(n, p)
  const whole = Math.floor(k)
  if (whole < 0) return 0
  return whole >= n ? 1 : betaUpper(p, whole + 1, n - whole)
}

/**
 * How likely are more than k successes in n trials? Strictly more: P(X > k).
 *
 * @param k  a count; a fraction counts as the whole number below it
 * @param n  trials, a whole number ≥ 0
 * @param p  chance of success, 0 ≤ p ≤ 1
 * @throws RangeError  k is not a number, n not whole, p outside [0, 1]
 *
 * Checked  test/reference/distribution-grids.test.ts
 */
export function binomialUpper(k: number, n: number, p: number): number {
  demand(!Number.isNaN(k), `a count must be a number, got ${k}`)
  checkTrials(n, p)
  const whole = Math.floor(k)
  if (whole < 0) return 1
  return whole >= n ? 0 : betaLower(p, whole + 1, n - whole)
}

/**
 * What is the smallest count k with P(X ≤ k) at least prob?
 *
 * Compared to the last bit, without a tolerance.
 *
 * @param prob  0 ≤ prob ≤ 1
 * @param n     trials, a whole number ≥ 0
 * @param p     chance of success, 0 ≤ p ≤ 1
 * @throws RangeError  prob or p outside [0, 1], n not whole
 *
 * Checked  test/unit/stats/distribution/binomial.test.ts
 */
export function binomialQuantile(prob: number, n: number, p: number): number {
  demand(prob >= 0 && prob <= 1, `a share must lie between 0 and 1, got ${prob}`)
  checkTrials(n, p)
  if (prob === 0 || n === 0 || p === 0) return 0
  if (prob === 1 || p === 1) return n
  const enough = (k: number) => (prob > 0.5 ? binomialUpper(k, n, p) <= 1 - prob : binomialLower(k, n, p) >= prob)
  const guess = n * p + normalQuantile(prob) * Math.sqrt(n * p * (1 - p))
  let k = Math.min(n, Math.max(0, Math.round(guess)))
  while (k > 0 && enough(k - 1)) k--
  while (!enough(k)) k++
  return k
}
