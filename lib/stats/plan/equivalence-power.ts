import { integratePanels } from '../distribution/gauss-legendre'
import { normalLower, normalUpper } from '../distribution/normal'
import { stirlingRemainder, exponentialBeyondLine } from '../distribution/stirling'
import { studentQuantile } from '../distribution/student'

/** Panels between the ends of the density of ln(s/σ): ten points in each leave no error above 1e-13. */
const PANELS = 16

/**
 * How likely do both one-sided tests reject, so that two cups are called equivalent?
 *
 *     power = ∫ g(u) [Φ((M − θ)/τ − t eᵘ) − Φ(−(M + θ)/τ + t eᵘ)] du over t eᵘ < M/τ,
 *     g the density of ln(s/σ) on ν degrees of freedom,  t one-sided at α,  τ the true standard error, θ the truth
 *
 * @param test  se τ > 0; df ν > 0, finite; margin M > 0; truth θ; alpha below one half
 *
 * Source   Phillips (1990), J. Pharmacokinetics and Biopharmaceutics 18, 137–144; Owen (1965), Biometrika 52, 437–446
 * Checked  test/reference/equivalence-power.test.ts (relative 1e-9 against R's own integration)
 */
export function equivalencePower(test: {
  readonly se: number
  readonly df: number
  readonly margin: number
  readonly truth: number
  readonly alpha: number
}): number {
  const { se, df, margin, truth, alpha } = test
  const t = studentQuantile(1 - alpha, df)
  const half = df / 2
  const front = Math.LN2 + 0.5 * Math.log(half / (2 * Math.PI)) - stirlingRemainder(half)
  const integrand = (u: number) => {
    const reach = t * Math.exp(u)
    const inside = betweenNormal(reach - (margin + truth) / se, (margin - truth) / se - reach)
    return Math.exp(front - half * exponentialBeyondLine(2 * u)) * inside
  }
  const [low, bound] = edges(df)
  const high = Math.min(bound, Math.log(margin / se / t))
  if (high <= low) return 0
  return Math.min(1, integratePanels(integrand, low, high, PANELS))
}

/** Φ(b) − Φ(a), from the tails that are small. */
function betweenNormal(a: number, b: number): number {
  if (b <= a) return 0
  return a > 0 ? normalUpper(a) - normalUpper(b) : normalLower(b) - normalLower(a)
}

/** Where the density of ln(s/σ) has fallen to e^(−40) of its peak: half·(e^(2u) − 1 − 2u) = 40. */
function edges(df: number): [number, number] {
  const half = df / 2
  const edge = (direction: 1 | -1) => {
    let u = direction / Math.sqrt(df)
    while (half * exponentialBeyondLine(2 * u) < 40) u *= 1.25
    return u
  }
  return [edge(-1), edge(1)]
}
