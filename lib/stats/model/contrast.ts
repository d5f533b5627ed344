import { lost } from '@/lib/base/lost'
import { studentQuantile, studentTwoSided } from '../distribution/student'
import type { FixedEffects } from './fixed-effects'
import type { Interval } from '../outcome'
import { quadratic } from '../algebra/positive-definite'

/** A linear combination of fixed effects, tested against zero; null where no residual or no df carries it. */
export interface ContrastEstimate {
  readonly estimate: number
  readonly se: number | null
  readonly df: number | null
  readonly t: number | null
  readonly p: number | null
  readonly interval: Interval | null
}

/**
 * How large is this combination of effects, and how sure is that?
 *
 *     cᵀβ ± t(df, (1 + level)/2) · √(cᵀ Cov c),   t = cᵀβ / √(cᵀ Cov c)
 *
 * @param contrast  one weight per fixed effect
 * @param level     coverage, 0 < level < 1
 *
 * Source   Kuznetsova, Brockhoff and Christensen (2017), J. Stat. Softw. 82(13), section 2.
 * Checked  test/reference/acceptance-r-cases.test.ts
 */
export function estimateContrast(effects: FixedEffects, contrast: Float64Array, level: number): ContrastEstimate {
  const estimate = contrast.reduce((sum, weight, j) => sum + weight * (effects.beta[j] ?? lost()), 0)
  const se = Math.sqrt(Math.max(0, quadratic(contrast, effects.covariance, contrast, contrast.length)))
  const df = effects.df(contrast)
  if (df === null || !(se > 0)) return { estimate, se, df, t: null, p: null, interval: null }
  const t = estimate / se
  // Where session and taster cannot be told apart hardly any df is left: the t quantile is then beyond every number.
  const interval = around(estimate, se, studentReach(level, df))
  return { estimate, se, df, t, p: studentTwoSided(t, df), interval: interval.every(Number.isFinite) ? interval : null }
}

/** @returns centre ± reach · se */
export function around(centre: number, se: number, reach: number): Interval {
  return [centre - reach * se, centre + reach * se]
}

const remembered = new Map<number, Map<number, number>>()

/**
 * How many standard errors does a t interval reach to either side?
 *
 *     t(df, (1 + level) / 2)
 *
 * Balanced panels ask for the same degrees of freedom over and over, equal to all but the last digits: those share one
 * quantile, which moves by far less than they do.
 *
 * Source   Student (1908), Biometrika 6(1), 1–25.
 * Checked  test/unit/stats/model/contrast.test.ts
 */
export function studentReach(level: number, df: number): number {
  let known = remembered.get(level)
  if (!known || known.size > 1000) {
    if (remembered.size > 30) remembered.clear()
    known = new Map()
    remembered.set(level, known)
  }
  const settled = Number(df.toPrecision(12))
  const found = known.get(settled)
  if (found !== undefined) return found
  const reach = studentQuantile((1 + level) / 2, settled)
  known.set(settled, reach)
  return reach
}
