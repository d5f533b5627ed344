import { demand } from '@/lib/base/demand'
import { binomialLower } from '../distribution/binomial'

/**
 * Do more answers point one way than the other, if a coin were tossed for each?
 *
 *     p = min(1, 2 P(X ≤ min(a, b))),   X binomial with n = a + b and ½
 *
 * The sign test of tied-free pairs, and McNemar's test in its exact form: both look only at those who differ.
 *
 * @param a  answers one way, a whole number ≥ 0
 * @param b  answers the other way; ties are left out before
 * @returns  two-sided p; 1 when nobody differs
 * @throws RangeError  a count that is not a whole number from 0
 *
 * Source   Dixon & Mood (1946), J. Am. Stat. Assoc. 41, 557–566; McNemar (1947), Psychometrika 12, 153–157
 * Checked  test/reference/mcnemar-1947-changes.test.ts, test/reference/wilcoxon-1945-signed-rank.test.ts
 */
export function signTest(a: number, b: number): number {
  for (const count of [a, b])
    demand(Number.isInteger(count) && count >= 0, `a count must be a whole number, got ${count}`)
  return Math.min(1, 2 * binomialLower(Math.min(a, b), a + b, 0.5))
}
