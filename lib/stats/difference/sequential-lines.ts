import { demand } from '@/lib/base/demand'

/** What a sequential test is planned with. */
export interface SequentialPlan {
  /** the share for a that should be noticed, ½ < p1 < 1 (and 1 − p1 for b) */
  readonly p1: number
  /** two-sided risk of a preference where there is none */
  readonly alpha: number
  /** risk of missing p1 */
  readonly beta: number
  /** no more tasters than this */
  readonly max: number
}

/** Lines in the count x of answers for one cup after n answers: x = lower + slope · n and x = upper + slope · n. */
export interface SequentialLines {
  readonly slope: number
  readonly lower: number
  readonly upper: number
}

/**
 * Where are Wald's two lines for one half against p1, at alpha / 2?
 *
 *     D = ln(p1 / (1 − p1)),   slope = −ln(2 (1 − p1)) / D,   lower = ln(β / (1 − α/2)) / D,   upper = ln((1 − β) / (α/2)) / D
 *
 * @throws RangeError  p1 outside (½, 1), alpha or beta outside (0, 1), or so large together that the lines cross;
 *                     max not a whole number from 1 to 100 000
 *
 * Source   Wald (1947), Sequential Analysis, 5.3; ISO 16820
 * Checked  test/reference/wald-1947-sequential.test.ts
 */
export function sequentialLines({ p1, alpha, beta, max }: SequentialPlan): SequentialLines {
  demand(p1 > 0.5 && p1 < 1, `p1 must lie between one half and 1, got ${p1}`)
  demand(alpha > 0 && alpha < 1, `alpha must lie between 0 and 1, got ${alpha}`)
  demand(beta > 0 && beta < 1, `beta must lie between 0 and 1, got ${beta}`)
  demand(alpha / 2 + beta < 1, `half of alpha and beta must stay below 1 together, got ${alpha} and ${beta}`)
  demand(Number.isInteger(max) && max >= 1 && max <= 100_000, `max must be a whole number from 1 to 100000, got ${max}`)
  const D = Math.log(p1) - Math.log1p(-p1)
  return {
    slope: -(Math.LN2 + Math.log1p(-p1)) / D,
    lower: (Math.log(beta) - Math.log1p(-alpha / 2)) / D,
    upper: (Math.log1p(-beta) - Math.log(alpha / 2)) / D,
  }
}

/**
 * Where are Wald's two lines for guessing against p1?
 *
 *     D = ln(p₁ (1 − p₀) / (p₀ (1 − p₁))),   slope = ln((1 − p₀) / (1 − p₁)) / D,
 *     lower = ln(β / (1 − α)) / D,   upper = ln((1 − β) / α) / D
 *
 * @param plan  p0 < p1 < 1; alpha, one-sided, and beta, together below 1; max a whole number from 1 to 100 000
 * @throws RangeError  a number outside its range
 *
 * Source   Wald (1947), Sequential Analysis, 5.3
 * Checked  test/reference/wald-1947-looks.test.ts
 */
export function guessingLines(plan: {
  readonly p0: number
  readonly p1: number
  readonly alpha: number
  readonly beta: number
  readonly max: number
}): SequentialLines {
  const { p0, p1, alpha, beta, max } = plan
  demand(p0 > 0 && p0 < p1 && p1 < 1, `the share to be noticed must lie between guessing and 1, got ${p1}`)
  demand(alpha > 0 && alpha < 1, `alpha must lie between 0 and 1, got ${alpha}`)
  demand(beta > 0 && beta < 1, `beta must lie between 0 and 1, got ${beta}`)
  demand(alpha + beta < 1, `alpha and beta must stay below 1 together, got ${alpha} and ${beta}`)
  demand(Number.isInteger(max) && max >= 1 && max <= 100_000, `max must be a whole number from 1 to 100000, got ${max}`)
  const D = Math.log(p1) - Math.log1p(-p1) - Math.log(p0) + Math.log1p(-p0)
  return {
    slope: (Math.log1p(-p0) - Math.log1p(-p1)) / D,
    lower: (Math.log(beta) - Math.log1p(-alpha)) / D,
    upper: (Math.log1p(-beta) - Math.log(alpha)) / D,
  }
}

/** Where one of the two tests stands: still running, or ended with or without a preference for its cup. */
export type OneSided = 'running' | 'shown' | 'not shown'

/** A count that meets a line but for rounding has met it. */
const ROUNDING = 1e-9

/**
 * Has one cup's count of x after n answers met a line?
 *
 * Source   Wald (1947), Sequential Analysis, 5.3
 * Checked  test/reference/wald-1947-sequential.test.ts
 */
export function oneSided({ slope, lower, upper }: SequentialLines, x: number, n: number): OneSided {
  if (x >= upper + slope * n - ROUNDING) return 'shown'
  return x <= lower + slope * n + ROUNDING ? 'not shown' : 'running'
}
