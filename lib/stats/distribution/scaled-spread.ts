import { demand } from '@/lib/base/demand'
import { exponentialBeyondLine, stirlingRemainder } from './stirling'

/** A point of an integration rule over the ratio s / σ and the probability it stands for. */
export interface SpreadPoint {
  readonly ratio: number
  readonly weight: number
}

/** What a rule leaves out on either side, as a probability. */
const LEFT_OUT = 1e-18

/** In u the density is analytic for |Im u| < π/4 only: the rule's error is about exp(−π²/(2·step)), here 1e-18. */
const WIDEST_STEP = 0.12

/**
 * At which ratios of an estimated to a true standard deviation shall an integrand be taken?
 *
 *     ∫ g(u) h(eᵘ) du ≈ Σ w_i h(r_i),   r = s/σ,  u = ln r,
 *     g(u) = 2 (ν/2)^(ν/2) / Γ(ν/2) · exp(ν u − ν e^(2u)/2)
 *
 * The trapezoid rule in u: for smooth h its error falls faster than any power of the step.
 *
 * @param df    degrees of freedom ν of s, real, > 0; Infinity gives the single ratio 1
 * @param step  largest step in u, > 0: at most half the width over which h changes; the default suits an h no steeper than a range of normal readings
 * @throws RangeError  df or step not above 0
 *
 * Source   Trefethen and Weideman (2014), The exponentially convergent trapezoidal rule, SIAM Review 56, 385–458
 * Checked  test/unit/stats/distribution/scaled-spread.test.ts (weights sum to 1, moments of s²)
 */
export function spreadRule(df: number, step = WIDEST_STEP): SpreadPoint[] {
  demand(df > 0, `degrees of freedom must be above 0, got ${df}`)
  demand(step > 0, `the step must be above 0, got ${step}`)
  if (df === Infinity) return [{ ratio: 1, weight: 1 }]
  const half = df / 2
  const h = Math.min(step, WIDEST_STEP, 0.5 / Math.sqrt(2 * df))
  const front = Math.LN2 + 0.5 * Math.log(half / (2 * Math.PI)) - stirlingRemainder(half)
  const logDensity = (u: number) => front - half * exponentialBeyondLine(2 * u)
  const floor = Math.log(LEFT_OUT)
  const points: SpreadPoint[] = []
  for (const side of [1, -1]) {
    for (let i = side === 1 ? 0 : 1; ; i++) {
      const u = side * i * h
      const log = logDensity(u)
      if (log < floor) break
      points.push({ ratio: Math.exp(u), weight: h * Math.exp(log) })
    }
  }
  return points
}
