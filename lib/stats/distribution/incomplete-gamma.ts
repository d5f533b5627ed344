import gammainc from '@stdlib/math-base-special-gammainc'
import { deviancePart, stirlingRemainder } from './stirling'

/** Above this the library's expansion for large a takes over, and loses digits (3e-3 at a = 5000, x = 5250). */
const LIBRARY_UP_TO = 20

/**
 * Either tail of the regularized incomplete gamma function, also at large a.
 *
 *     P(a, x) = ∫₀ˣ t^(a−1) e^(−t) dt / Γ(a), or Q = 1 − P
 *
 * The library for a ≤ 20; beyond, the series of P below a + 1 and the continued fraction of Q above, under
 * x^a e^(−x) / Γ(a) = √(a/2π) · exp(−δ(a) − [a ln(a/x) + x − a]).
 *
 * @param x      ≥ 0, finite
 * @param a      > 0, finite
 * @param upper  true for Q
 *
 * Source   NIST DLMF 8.7.1, 8.9.2; Loader (2000) for the front factor
 * Checked  test/reference/mpmath-2026-tails.test.ts
 * Cost     terms grow as √a where x is near a
 */
export function incompleteGamma(x: number, a: number, upper: boolean): number {
  if (x <= 0) return upper ? 1 : 0
  if (a <= LIBRARY_UP_TO) return Math.min(1, gammainc(x, a, true, upper))
  const front = Math.exp(-stirlingRemainder(a) - deviancePart(a, x)) * Math.sqrt(a / (2 * Math.PI))
  const small = x < a + 1 ? (front / a) * series(x, a) : front * fraction(x, a)
  return x < a + 1 === upper ? Math.max(0, 1 - small) : Math.min(1, small)
}

/** 1 + x/(a+1) + x²/((a+1)(a+2)) + … */
function series(x: number, a: number): number {
  let term = 1
  let sum = 1
  for (let k = 1; term > 1e-17 * sum; k++) {
    term *= x / (a + k)
    sum += term
  }
  return sum
}

/** 1/(x + 1 − a − (1 − a)·1/(x + 3 − a − …)), by Lentz's method. */
function fraction(x: number, a: number): number {
  let b = x + 1 - a
  let c = 1e300
  let d = 1 / b
  let value = d
  for (let k = 1; k < 1_000_000; k++) {
    const step = k * (a - k)
    b += 2
    d = 1 / (step * d + b)
    c = b + step / c
    const change = c * d
    value *= change
    if (Math.abs(change - 1) < 1e-16) break
  }
  return value
}
