import { demand } from '@/lib/base/demand'
import { around } from '../model/contrast'
import { studentLower, studentQuantile, studentUpper } from '../distribution/student'
import type { OneSided, MarginPair } from './first-answer'
import { isAtMost } from '../multiplicity'
import type { Judged } from './verdict'

/**
 * Is a difference smaller than a margin that matters, or larger than it?
 *
 *     not worse: H₀ δ ≤ −M, p = P(T_df > (d + M)/se)      equivalent: both one-sided tests at 1 − level
 *     better by the margin: H₀ δ ≤ M, p = P(T_df > (d − M)/se)
 *
 * `interval` has level 2·level − 1: equivalent exactly when it lies within ±M.
 *
 * @param margin  M > 0 on the scale of the scores, fixed before the panel
 * @throws RangeError  a margin that is not above zero
 *
 * Source   Schuirmann (1987), J. Pharmacokinet. Biopharm. 15(6), 657–680.
 * Checked  test/reference/acceptance-r-cases.test.ts; test/unit/stats/liking/equivalence.test.ts
 * Limits   pair by pair, no allowance for many pairs.
 */
export function againstMargin(a: string, b: string, judged: Judged, margin: number, level: number): MarginPair {
  demand(margin > 0 && Number.isFinite(margin), `a margin must be above zero, got ${margin}`)
  const { basis, difference, se, df } = judged
  const none: OneSided = { p: null, holds: false }
  if (difference === null || se === null || df === null || !(se > 0)) {
    const nothing = { pEquivalent: null, equivalent: false, interval: null }
    return { a, b, basis, ...nothing, aNotWorse: none, bNotWorse: none, aBetterByMargin: none, bBetterByMargin: none }
  }

  const oneSided = (p: number): OneSided => ({ p, holds: isAtMost(p, 1 - level) })
  const aNotWorse = oneSided(studentUpper((difference + margin) / se, df))
  const bNotWorse = oneSided(studentLower((difference - margin) / se, df))
  const larger = Math.max(aNotWorse.p ?? 1, bNotWorse.p ?? 1)
  return {
    a,
    b,
    basis,
    pEquivalent: larger,
    equivalent: isAtMost(larger, 1 - level),
    interval: level > 0.5 ? around(difference, se, studentQuantile(level, df)) : null,
    aNotWorse,
    bNotWorse,
    aBetterByMargin: oneSided(studentUpper((difference - margin) / se, df)),
    bBetterByMargin: oneSided(studentLower((difference + margin) / se, df)),
  }
}
