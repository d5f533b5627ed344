import { demand } from '@/lib/base/demand'
import gammaln from '@stdlib/math-base-special-gammaln'

const HALF_LOG_TWO_PI = 0.5 * Math.log(2 * Math.PI)

/**
 * What does Stirling's formula leave out?
 *
 *     δ(x) = ln Γ(x) − [(x − ½) ln x − x + ½ ln 2π] = 1/(12x) − 1/(360x³) + …
 *
 * Differences of ln Γ at large arguments keep their digits only when written with δ.
 *
 * @param x  > 0
 * @throws RangeError  x not above 0
 *
 * Source   Loader (2000), Fast and accurate computation of binomial probabilities, section 3; NIST DLMF 5.11.1
 * Checked  test/unit/stats/distribution/stirling.test.ts
 */
export function stirlingRemainder(x: number): number {
  demand(x > 0, `Stirling's remainder needs a number above 0, got ${x}`)
  if (x === Infinity) return 0
  if (x < 16) return gammaln(x) - ((x - 0.5) * Math.log(x) - x + HALF_LOG_TWO_PI)
  const r = 1 / (x * x)
  return (1 / 12 - r * (1 / 360 - r * (1 / 1260 - r * (1 / 1680 - r * (1 / 1188 - (r * 691) / 360360))))) / x
}

/**
 * eˣ − 1 − x without losing digits near 0.
 *
 * Checked  test/unit/stats/distribution/stirling.test.ts
 */
export function exponentialBeyondLine(x: number): number {
  if (Math.abs(x) > 0.25) return Math.expm1(x) - x
  let term = (x * x) / 2
  let sum = term
  for (let k = 3; Math.abs(term) > 1e-18 * Math.abs(sum) && k < 30; k++) {
    term *= x / k
    sum += term
  }
  return sum
}

/**
 * Loader's deviance part: x ln(x/m) + m − x, without losing digits near x = m.
 *
 * @param x  ≥ 0
 * @param m  > 0
 *
 * Source   Loader (2000), section 4 (bd0)
 * Checked  test/reference/distribution-grids.test.ts (binomial masses)
 */
export function deviancePart(x: number, m: number): number {
  if (x === 0) return m
  const d = x - m
  if (Math.abs(d) >= 0.1 * (x + m)) return x * Math.log(x / m) - d
  const v = d / (x + m)
  let sum = d * v
  let power = 2 * x * v
  for (let k = 1; k < 1000; k++) {
    power *= v * v
    const next = sum + power / (2 * k + 1)
    if (next === sum) break
    sum = next
  }
  return sum
}
