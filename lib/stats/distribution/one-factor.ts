import { lost } from '@/lib/base/lost'

/** How far a correlation may lie from the product of its loadings and still count as that product. */
const TOLERANCE = 1e-10

/**
 * Can correlations be written as products, one number for each contrast?
 *
 *     ρ_ij = λ_i λ_j for all i ≠ j,  |λ_i| < 1 − 1e-7
 *
 * Comparisons of cups with one control, each cup with its own variance, are of this form.
 *
 * @param correlation  m × m, symmetric, ones on the diagonal
 * @returns            the loadings λ, up to a common sign, or null where there are none within 1e-10
 *
 * Source   Dunnett (1955), J. Am. Stat. Assoc. 50, 1096–1121: λ_i = √(n_i / (n_i + n_0))
 * Checked  test/unit/stats/distribution/one-factor.test.ts
 */
export function oneFactorLoadings(correlation: readonly (readonly number[])[]): number[] | null {
  const m = correlation.length
  const rho = (i: number, j: number) => correlation[i]?.[j] ?? lost()
  if (m === 1) return [0]
  const root = Math.sqrt(Math.abs(rho(0, 1)))
  const found = m === 2 ? [root, root * Math.sign(rho(0, 1))] : fromTriples(m, rho)
  for (let i = 0; i < m; i++) {
    const own = found[i] ?? lost()
    if (!(Math.abs(own) < 1 - 1e-7)) return null
    for (let j = 0; j < i; j++) if (Math.abs(rho(i, j) - own * (found[j] ?? lost())) > TOLERANCE) return null
  }
  return found
}

/** λ of the contrast with the largest correlations from a triple; the others from their correlation with it. */
function fromTriples(m: number, rho: (i: number, j: number) => number): number[] {
  const others = (i: number) => Array.from({ length: m }, (_, j) => j).filter((j) => j !== i)
  const strength = (i: number) => others(i).reduce((sum, j) => sum + Math.abs(rho(i, j)), 0)
  const anchor = Array.from({ length: m }, (_, i) => i).reduce((a, b) => (strength(b) > strength(a) ? b : a), 0)
  const near = others(anchor).sort((a, b) => Math.abs(rho(anchor, b)) - Math.abs(rho(anchor, a)))
  const [j = 0, k = 0] = near
  const square = rho(j, k) === 0 ? Math.abs(rho(anchor, j)) : (rho(anchor, j) * rho(anchor, k)) / rho(j, k)
  const own = Math.sqrt(Math.max(0, square))
  return Array.from({ length: m }, (_, i) => (i === anchor ? own : own === 0 ? 0 : rho(anchor, i) / own))
}
