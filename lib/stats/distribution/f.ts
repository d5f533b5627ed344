import { demand } from '@/lib/base/demand'
import { logBeta } from './beta'
import { chiSquaredLower, chiSquaredQuantile, chiSquaredUpper } from './chi-squared'
import { normalQuantile } from './normal'
import { incompleteBeta } from './incomplete-beta'
import { solveMonotone } from './solve'

function checkDf(df1: number, df2: number): void {
  demand(df1 > 0 && df1 < Infinity, `the first degrees of freedom must be finite and above 0, got ${df1}`)
  demand(df2 > 0, `the second degrees of freedom must be above 0, got ${df2}`)
}

/** One tail of F for x > 0, with the smaller of the two beta arguments given exactly. */
function share(x: number, df1: number, df2: number, upper: boolean): number {
  if (df2 === Infinity) return upper ? chiSquaredUpper(df1 * x, df1) : chiSquaredLower(df1 * x, df1)
  if (x === Infinity) return upper ? 0 : 1
  const odds = (df1 / df2) * x
  if (odds <= 1) return incompleteBeta(odds / (1 + odds), df1 / 2, df2 / 2, upper)
  const inverse = df2 / df1 / x
  return incompleteBeta(inverse / (1 + inverse), df2 / 2, df1 / 2, !upper)
}

/**
 * How likely is an F reading at or below x?
 *
 *     I_y(df1/2, df2/2),  y = df1·x / (df1·x + df2)
 *
 * @param x    any number; below 0 nothing lies
 * @param df1  numerator degrees of freedom, real, > 0
 * @param df2  denominator degrees of freedom, real, > 0; Infinity gives chi-squared over df1
 * @throws RangeError  x is not a number, a df not above 0
 *
 * Source   Abramowitz and Stegun 26.6.2
 * Checked  test/reference/distribution-grids.test.ts
 */
export function fLower(x: number, df1: number, df2: number): number {
  demand(!Number.isNaN(x), `an F reading must be a number, got ${x}`)
  checkDf(df1, df2)
  return x <= 0 ? 0 : share(x, df1, df2, false)
}

/**
 * How likely is an F reading above x? The p of an F test.
 *
 * @param x    any number
 * @param df1  numerator degrees of freedom, real, > 0
 * @param df2  denominator degrees of freedom, real, > 0; Infinity gives chi-squared over df1
 * @throws RangeError  x is not a number, a df not above 0
 *
 * Checked  test/reference/distribution-grids.test.ts
 */
export function fUpper(x: number, df1: number, df2: number): number {
  demand(!Number.isNaN(x), `an F reading must be a number, got ${x}`)
  checkDf(df1, df2)
  return x <= 0 ? 1 : share(x, df1, df2, true)
}

/**
 * Below which x do a share p of F readings lie?
 *
 * Newton in ln x on the logarithm of the smaller tail.
 *
 * @param p    0 ≤ p ≤ 1; 0 gives 0, 1 gives Infinity
 * @param df1  numerator degrees of freedom, real, > 0
 * @param df2  denominator degrees of freedom, real, > 0; Infinity allowed
 * @throws RangeError  p outside [0, 1], a df not above 0
 *
 * Checked  test/reference/distribution-grids.test.ts
 */
export function fQuantile(p: number, df1: number, df2: number): number {
  demand(p >= 0 && p <= 1, `a share must lie between 0 and 1, got ${p}`)
  checkDf(df1, df2)
  if (p === 0 || p === 1) return p === 0 ? 0 : Infinity
  if (df2 === Infinity) return chiSquaredQuantile(p, df1) / df1
  const upper = p >= 0.5
  const target = Math.log(upper ? 1 - p : p)
  const scale = logBeta(df1 / 2, df2 / 2)
  const shift = Math.log(df1 / df2)
  const found = solveMonotone(
    (u) => {
      const log = Math.log(share(Math.exp(u), df1, df2, upper))
      const logOdds = u + shift
      const bend = logOdds > 700 ? logOdds : Math.log1p(Math.exp(logOdds))
      const flow = Math.exp((df1 / 2) * logOdds - ((df1 + df2) / 2) * bend - scale - log)
      return { value: log - target, slope: upper ? -flow : flow }
    },
    // Fisher's z: near normal with this spread; the search itself does not depend on it
    normalQuantile(p) * Math.sqrt(2 / df1 + 2 / df2),
    0.1,
  )
  return Math.exp(found)
}
