import { demand } from '@/lib/base/demand'
import { mean, sampleVariance } from './describe'
import { betaQuantile, logBeta } from './distribution/beta'
import { normalQuantile } from './distribution/normal'
import { solveBetween } from './distribution/solve'
import { studentQuantile } from './distribution/student'
import type { Interval } from './outcome'

function checkLevel(level: number): void {
  demand(level > 0 && level < 1, `level must lie between 0 and 1, got ${level}`)
}

function checkCounts(x: number, n: number): void {
  demand(Number.isInteger(n) && n >= 1, `a share needs a whole number of answers from 1, got ${n}`)
  demand(Number.isInteger(x) && x >= 0 && x <= n, `a count must be a whole number from 0 to ${n}, got ${x}`)
}

/** The mean of some readings with its interval. */
export interface MeanInterval {
  readonly mean: number
  readonly se: number
  readonly df: number
  readonly interval: Interval
}

/**
 * Interval for the mean of independent readings from a near-normal source.
 *
 *     mean ± t(df, (1 + level) / 2) · √(s² / n),   df = n − 1,   s² = sample variance
 *
 * @param readings  n ≥ 2 finite numbers in one unit. Gaps are the caller's to remove and to count.
 * @param level     coverage, 0 < level < 1. No default: every interval states its level.
 * @throws RangeError  fewer than two readings, one not finite, or a level outside (0, 1)
 *
 * Source   Student (1908), Biometrika 6(1), 1–25
 * Checked  test/reference/student-1908-sleep.test.ts
 * Limits   Readings by one taster are not independent; use the mixed model for those. Not clipped to the scale.
 */
export function meanInterval(readings: readonly number[], level: number): MeanInterval {
  checkLevel(level)
  const n = readings.length
  demand(n >= 2, `a mean interval needs at least two readings, got ${n}`)
  const centre = mean(readings)
  const se = Math.sqrt(sampleVariance(readings) / n)
  const reach = studentQuantile((1 + level) / 2, n - 1) * se
  return { mean: centre, se, df: n - 1, interval: [centre - reach, centre + reach] }
}

/**
 * Which shares could have given x of n, judged by the exact binomial tails?
 *
 *     low = B(α/2; x, n − x + 1),  high = B(1 − α/2; x + 1, n − x),  B the beta quantile, α = 1 − level
 *
 * @param x      count, a whole number from 0 to n; x = 0 gives low 0, x = n gives high 1, exactly
 * @param n      answers, a whole number ≥ 1
 * @param level  coverage, 0 < level < 1
 * @throws RangeError  counts not whole or out of range, level outside (0, 1)
 *
 * Source   Clopper and Pearson (1934), Biometrika 26, 404–413
 * Checked  test/reference/newcombe-1998-proportions.test.ts
 * Limits   covers at least `level`, often more
 */
export function clopperPearson(x: number, n: number, level: number): Interval {
  checkLevel(level)
  return [clopperPearsonLower(x, n, (1 + level) / 2), clopperPearsonUpper(x, n, (1 + level) / 2)]
}

/**
 * Which share is so low that x or more of n happen with probability 1 − level? The one-sided lower limit.
 *
 * @param x      count, a whole number from 0 to n
 * @param n      answers, a whole number ≥ 1
 * @param level  one-sided coverage, 0 < level < 1
 * @throws RangeError  counts not whole or out of range, level outside (0, 1)
 *
 * Source   Clopper and Pearson (1934), Biometrika 26, 404–413
 * Checked  test/reference/newcombe-1998-proportions.test.ts
 */
export function clopperPearsonLower(x: number, n: number, level: number): number {
  checkLevel(level)
  checkCounts(x, n)
  return x === 0 ? 0 : betaQuantile(1 - level, x, n - x + 1)
}

/**
 * Which share is so high that x or fewer of n happen with probability 1 − level? The one-sided upper limit.
 *
 * @param x      count, a whole number from 0 to n
 * @param n      answers, a whole number ≥ 1
 * @param level  one-sided coverage, 0 < level < 1
 * @throws RangeError  counts not whole or out of range, level outside (0, 1)
 *
 * Source   Clopper and Pearson (1934), Biometrika 26, 404–413
 * Checked  test/reference/newcombe-1998-proportions.test.ts
 */
export function clopperPearsonUpper(x: number, n: number, level: number): number {
  checkLevel(level)
  checkCounts(x, n)
  return x === n ? 1 : 1 - betaQuantile(1 - level, n - x, x + 1)
}

/**
 * Which shares could have given x of n, judged by the score test?
 *
 *     (p + z²/2n ± z √(p (1 − p)/n + z²/4n²)) / (1 + z²/n),   p = x/n,  z = Φ⁻¹((1 + level)/2)
 *
 * @param x      count, a whole number from 0 to n; x = 0 gives low 0, x = n gives high 1, exactly
 * @param n      answers, a whole number ≥ 1
 * @param level  coverage, 0 < level < 1
 * @throws RangeError  counts not whole or out of range, level outside (0, 1)
 *
 * Source   Wilson (1927), J. Am. Stat. Assoc. 22, 209–212
 * Checked  test/reference/newcombe-1998-proportions.test.ts
 * Limits   covers `level` on average over shares; in single places a little less
 */
export function wilson(x: number, n: number, level: number): Interval {
  checkLevel(level)
  checkCounts(x, n)
  const z = normalQuantile((1 + level) / 2)
  const share = x / n
  const square = (z * z) / n
  const centre = (share + square / 2) / (1 + square)
  const reach = (z / (1 + square)) * Math.sqrt((share * (1 - share)) / n + square / (4 * n))
  return [x === 0 ? 0 : centre - reach, x === n ? 1 : centre + reach]
}

/**
 * Which shares remain possible however often one looks while answers come in?
 *
 *     { p : B(1 + x, 1 + n − x) / (pˣ (1 − p)ⁿ⁻ˣ) < 1 / (1 − level) }
 *
 * The likelihood ratio of a uniform mixture against p is a martingale from 1 when p is true: by Ville's inequality it
 * ever reaches 1/(1 − level) with probability at most 1 − level.
 *
 * @param x      count so far, a whole number from 0 to n
 * @param n      answers so far, a whole number ≥ 0; none gives [0, 1]
 * @param level  coverage at all times together, 0 < level < 1
 * @throws RangeError  counts not whole or out of range, level outside (0, 1)
 *
 * Source   Robbins (1970), Ann. Math. Stat. 41, 1397–1409
 * Checked  test/reference/mpmath-2026-tails.test.ts
 * Limits   wider than the exact interval of a number of answers fixed beforehand
 */
export function anytime(x: number, n: number, level: number): Interval {
  checkLevel(level)
  if (n === 0 && x === 0) return [0, 1]
  checkCounts(x, n)
  const least = logBeta(1 + x, 1 + n - x) + Math.log1p(-level)
  // with odd and even swapped the upper end is a lower one
  const lowEnd = (hits: number) => {
    if (hits === 0) return 0
    const misses = n - hits
    const gap = (p: number) => hits * Math.log(p) + (misses === 0 ? 0 : misses * Math.log1p(-p)) - least
    return solveBetween(gap, 0, hits / n)
  }
  return [lowEnd(x), 1 - lowEnd(n - x)]
}
