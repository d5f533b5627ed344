import { demand } from '@/lib/base/demand'
import { incompleteGamma } from './incomplete-gamma'
import { normalQuantile } from './normal'
import { solveMonotone } from './solve'
import { stirlingRemainder } from './stirling'

function checkDf(df: number): void {
  demand(df > 0 && df < Infinity, `degrees of freedom must be finite and above 0, got ${df}`)
}

/**
 * How likely is a chi-squared reading at or below x?
 *
 *     P(df/2, x/2), the lower regularized incomplete gamma function
 *
 * @param x   any number; below 0 nothing lies
 * @param df  degrees of freedom, real, > 0
 * @throws RangeError  x is not a number, df not above 0
 *
 * Source   NIST DLMF 8.2.4
 * Checked  test/reference/distribution-grids.test.ts
 */
export function chiSquaredLower(x: number, df: number): number {
  demand(!Number.isNaN(x), `a chi-squared reading must be a number, got ${x}`)
  checkDf(df)
  if (x <= 0) return 0
  if (x === Infinity) return 1
  return incompleteGamma(x / 2, df / 2, false)
}

/**
 * How likely is a chi-squared reading above x?
 *
 * @param x   any number
 * @param df  degrees of freedom, real, > 0
 * @throws RangeError  x is not a number, df not above 0
 *
 * Checked  test/reference/distribution-grids.test.ts
 */
export function chiSquaredUpper(x: number, df: number): number {
  demand(!Number.isNaN(x), `a chi-squared reading must be a number, got ${x}`)
  checkDf(df)
  if (x <= 0) return 1
  if (x === Infinity) return 0
  return incompleteGamma(x / 2, df / 2, true)
}

/**
 * Below which x do a share p of chi-squared readings lie?
 *
 * Newton on the logarithm of the smaller tail in ln x: the library's own inverse is off by 2e-3 at p = 1e-50, df = 300.
 *
 * @param p   0 ≤ p ≤ 1; 0 gives 0, 1 gives Infinity
 * @param df  degrees of freedom, real, > 0
 * @throws RangeError  p outside [0, 1], df not above 0
 *
 * Checked  test/reference/distribution-grids.test.ts
 */
export function chiSquaredQuantile(p: number, df: number): number {
  demand(p >= 0 && p <= 1, `a share must lie between 0 and 1, got ${p}`)
  checkDf(df)
  if (p === 0) return 0
  if (p === 1) return Infinity
  const half = df / 2
  const lower = p < 0.5
  const target = Math.log(lower ? p : 1 - p)
  const peak = 0.5 * Math.log(half / (2 * Math.PI)) - stirlingRemainder(half)
  const found = solveMonotone(
    (u) => {
      const x = Math.exp(u)
      const log = Math.log(lower ? chiSquaredLower(x, df) : chiSquaredUpper(x, df))
      const density = Math.exp(peak + half * (Math.log(x / df) + 1) - x / 2 - log)
      return { value: log - target, slope: lower ? density : -density }
    },
    logStart(p, df, target),
    0.1,
  )
  return Math.exp(found)
}

/** Wilson and Hilferty's cube where it is positive, else the leading term of the series at 0. */
function logStart(p: number, df: number, target: number): number {
  const spread = 2 / (9 * df)
  const cube = 1 - spread + normalQuantile(p) * Math.sqrt(spread)
  if (cube > 0.1) return Math.log(df) + 3 * Math.log(cube)
  const half = df / 2
  const logGammaPlus =
    (half + 0.5) * Math.log(half + 1) - half - 1 + 0.5 * Math.log(2 * Math.PI) + stirlingRemainder(half + 1)
  return Math.LN2 + (target + logGammaPlus) / half
}
