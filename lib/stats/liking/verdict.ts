import type { Basis } from './first-answer'
import { holm, isAtMost } from '../multiplicity'

/** What a verdict needs to know of one comparison, whichever basis it comes from. */
export interface Judged {
  readonly basis: Basis
  readonly difference: number | null
  readonly se: number | null
  readonly df: number | null
  readonly p: number | null
}

/**
 * Which p values stand after all comparisons of the family are counted?
 *
 *     Holm: sorted p(1) ≤ … ≤ p(m) become max over j ≤ i of (m − j + 1) p(j), at most 1
 *
 * A comparison that cannot be tested stays in the family as p = 1 and answers null.
 *
 * Source   Holm (1979), Scand. J. Stat. 6(2), 65–70.
 * Checked  test/unit/stats/liking/verdict.test.ts
 */
export function holmAmong(ps: readonly (number | null)[]): readonly (number | null)[] {
  const adjusted = holm(ps.map((p) => p ?? 1))
  return ps.map((p, i) => (p === null ? null : (adjusted[i] ?? null)))
}

/** @returns the sign of a difference that is told apart from zero at 1 − level, otherwise 0 */
export function verdictSign(difference: number | null, pHolm: number | null, level: number): -1 | 0 | 1 {
  if (difference === null || pHolm === null || !isAtMost(pHolm, 1 - level)) return 0
  return difference > 0 ? 1 : difference < 0 ? -1 : 0
}
