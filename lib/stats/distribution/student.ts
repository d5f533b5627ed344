import { demand } from '@/lib/base/demand'
import { logBeta } from './beta'
import { normalLower, normalQuantile, normalUpper } from './normal'
import { incompleteBeta } from './incomplete-beta'
import { solveMonotone } from './solve'

function checkDf(df: number): void {
  demand(df > 0, `degrees of freedom must be above 0, got ${df}`)
}

/** P(T > t) for t ≥ 0, from whichever incomplete beta argument is the small one. */
function tail(t: number, df: number): number {
  if (df === Infinity) return normalUpper(t)
  if (t === Infinity) return 0
  const square = t * t
  if (square < df) {
    const x = square / (df + square)
    const middle = incompleteBeta(x, 0.5, df / 2, false)
    return middle < 0.5 ? 0.5 - 0.5 * middle : 0.5 * incompleteBeta(x, 0.5, df / 2, true)
  }
  const x = (Math.sqrt(df) / t) ** 2
  if (x > 1e-290) return 0.5 * incompleteBeta(x / (1 + x), df / 2, 0.5, false)
  return 0.5 * Math.exp(df * (0.5 * Math.log(df) - Math.log(t)) - Math.log(df / 2) - logBeta(df / 2, 0.5))
}

/**
 * How likely is a Student t reading at or below t?
 *
 *     P(T > t) = ½ I_x(df/2, ½),  x = df/(df + t²)  for t ≥ 0, and its mirror image
 *
 * @param t   any real number, ±Infinity allowed
 * @param df  degrees of freedom, real, > 0; Infinity is the normal
 * @throws RangeError  t is not a number, df not above 0
 *
 * Source   NIST DLMF 8.17; Abramowitz and Stegun 26.7.1
 * Checked  test/reference/distribution-grids.test.ts
 */
export function studentLower(t: number, df: number): number {
  demand(!Number.isNaN(t), `t must be a number, got ${t}`)
  checkDf(df)
  if (df === Infinity) return normalLower(t)
  return t <= 0 ? tail(-t, df) : centralHalf(t, df) + 0.5
}

/** ½ P(|T| ≤ t), without the complement where the middle is the small part. */
function centralHalf(t: number, df: number): number {
  const square = t * t
  return square < df ? 0.5 * incompleteBeta(square / (df + square), 0.5, df / 2, false) : 0.5 - tail(t, df)
}

/**
 * How likely is a Student t reading above t?
 *
 * @param t   any real number, ±Infinity allowed
 * @param df  degrees of freedom, real, > 0; Infinity is the normal
 * @throws RangeError  t is not a number, df not above 0
 *
 * Checked  test/reference/distribution-grids.test.ts
 */
export function studentUpper(t: number, df: number): number {
  return studentLower(-t, df)
}

/**
 * How likely is a Student t reading at least as far from 0 as t? The two-sided p.
 *
 * @param t   any real number, ±Infinity allowed
 * @param df  degrees of freedom, real, > 0; Infinity is the normal
 * @throws RangeError  t is not a number, df not above 0
 *
 * Checked  test/reference/distribution-grids.test.ts, test/reference/student-1908-sleep.test.ts
 */
export function studentTwoSided(t: number, df: number): number {
  demand(!Number.isNaN(t), `t must be a number, got ${t}`)
  checkDf(df)
  return Math.min(1, 2 * tail(Math.abs(t), df))
}

/**
 * Below which t do a share p of Student readings lie?
 *
 * Newton in ln t, on the logarithm of the smaller tail, or on the middle when p is near one half.
 *
 * @param p   0 ≤ p ≤ 1; the ends give ∓Infinity
 * @param df  degrees of freedom, real, > 0; Infinity is the normal
 * @throws RangeError  p outside [0, 1], df not above 0
 *
 * Checked  test/reference/distribution-grids.test.ts
 */
export function studentQuantile(p: number, df: number): number {
  demand(p >= 0 && p <= 1, `a share must lie between 0 and 1, got ${p}`)
  checkDf(df)
  if (df === Infinity) return normalQuantile(p)
  if (p === 0.5) return 0
  if (p === 0 || p === 1) return p === 0 ? -Infinity : Infinity
  const small = Math.min(p, 1 - p)
  const size = Math.exp(logQuantile(small, df))
  return p < 0.5 ? -size : size
}

/** ln t for the upper tail `small`, 0 < small < ½. */
function logQuantile(small: number, df: number): number {
  const scale = logBeta(0.5, df / 2)
  const target = Math.log(small)
  const middle = 0.5 - small
  // t times the density of t: the slope of either tail in ln t
  const flow = (u: number) => {
    const relative = Math.exp(2 * u) / df
    const bend = relative < Infinity ? Math.log1p(relative) : 2 * u - Math.log(df)
    return u - 0.5 * Math.log(df) - scale - ((df + 1) / 2) * bend
  }
  const byTail = (u: number) => {
    const log = Math.log(tail(Math.exp(u), df))
    return { value: log - target, slope: -Math.exp(flow(u) - log) }
  }
  const byMiddle = (u: number) => {
    const log = Math.log(centralHalf(Math.exp(u), df))
    return { value: log - Math.log(middle), slope: Math.exp(flow(u) - log) }
  }
  const z = -normalQuantile(small)
  const farOut = 0.5 * Math.log(df) - (Math.log(2 * small) + Math.log(df / 2) + logBeta(df / 2, 0.5)) / df
  const start = df > 3 && z * z < df ? Math.log(z * (1 + (z * z + 1) / (4 * df))) : Math.max(farOut, Math.log(z))
  return solveMonotone(small > 0.25 ? byMiddle : byTail, start, 0.01)
}
