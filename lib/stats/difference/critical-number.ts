import { demand } from '@/lib/base/demand'
import { binomialLower, binomialUpper } from '../distribution/binomial'
import { normalQuantile } from '../distribution/normal'

/** Rounding of 1 − level (1 − 0.9 is a little under 0.1) must not move a table's entry. */
const ROUNDING = 1 + 1e-12

function check(n: number, share: number, alpha: number): void {
  demand(Number.isInteger(n) && n >= 1, `the number of answers must be a whole number from 1, got ${n}`)
  demand(share > 0 && share < 1, `a share must lie between 0 and 1, got ${share}`)
  demand(alpha > 0 && alpha < 1, `alpha must lie between 0 and 1, got ${alpha}`)
}

/**
 * How many of n must be right before luck is no longer a good explanation?
 *
 *     min { x : P(X ≥ x) ≤ α },  X binomial with n and the guessing share
 *
 * @param n        answers, a whole number ≥ 1
 * @param guessing share right by luck, 0 < guessing < 1
 * @param alpha    risk of a false alarm, 0 < alpha < 1; halve it for a two-sided question
 * @returns        the count, or null where not even n of n is significant
 * @throws RangeError  a number outside its range
 *
 * Source   ISO 4120, ISO 10399, ISO 5495 (tables of critical numbers)
 * Checked  test/reference/difference-test.test.ts (all cells, published and recomputed)
 */
export function criticalNumber(n: number, guessing: number, alpha: number): number | null {
  check(n, guessing, alpha)
  const significant = (x: number) => binomialUpper(x - 1, n, guessing) <= alpha * ROUNDING
  if (!significant(n)) return null
  let x = Math.min(n, Math.max(0, near(n, guessing, 1 - alpha)))
  while (x > 0 && significant(x - 1)) x--
  while (!significant(x)) x++
  return x
}

/**
 * How few of n must be right before a share as large as this is no longer a good explanation?
 *
 *     max { x : P(X ≤ x) ≤ α },  X binomial with n and the share
 *
 * @param n      answers, a whole number ≥ 1
 * @param share  share right that one wants to rule out, 0 < share < 1
 * @param alpha  risk of ruling it out although it holds, 0 < alpha < 1
 * @returns      the count, or null where not even 0 of n suffices
 * @throws RangeError  a number outside its range
 *
 * Source   ISO 4120, ISO 10399, ISO 5495 (tables for similarity)
 * Checked  test/reference/difference-test.test.ts
 */
export function similarityNumber(n: number, share: number, alpha: number): number | null {
  check(n, share, alpha)
  const few = (x: number) => binomialLower(x, n, share) <= alpha * ROUNDING
  if (!few(0)) return null
  let x = Math.min(n, Math.max(0, near(n, share, alpha)))
  while (x < n && few(x + 1)) x++
  while (!few(x)) x--
  return x
}

function near(n: number, share: number, p: number): number {
  return Math.round(n * share + normalQuantile(p) * Math.sqrt(n * share * (1 - share)))
}
