import type { Interval } from '../outcome'

/** Coefficients of a curve b₀ + b₁ x + b₂ x² that matter for its turning point, with their covariance. */
export interface TurningPoint {
  readonly b1: number
  readonly b2: number
  readonly v11: number
  readonly v12: number
  readonly v22: number
}

/**
 * Between which doses may the turning point of a curve lie?
 *
 *     all x with (b₁ + 2 b₂ x)² ≤ t² (v₁₁ + 4 x v₁₂ + 4 x² v₂₂)
 *
 * @param t  the quantile of Student's distribution for the level wanted
 * @returns  the interval, or null where the set is not bounded (b₂ does not differ from 0 at that level)
 *
 * Source   Fieller (1954), J. R. Stat. Soc. B 16, 175–185
 * Checked  test/reference/fieller-1954-dose.test.ts
 */
export function fiellerInterval({ b1, b2, v11, v12, v22 }: TurningPoint, t: number): Interval | null {
  const square = b2 * b2 - t * t * v22
  if (!(square > 0)) return null
  const half = (b1 * b2 - t * t * v12) / 2
  const rest = (b1 * b1 - t * t * v11) / 4
  const root = Math.sqrt(Math.max(0, half * half - square * rest))
  // The end with the larger magnitude first, the other through the product of the roots, so that neither loses digits.
  const far = half > 0 ? -half - root : root - half
  if (far === 0) return [0, 0]
  const ends = [far / square, rest / far]
  return [Math.min(...ends), Math.max(...ends)]
}
