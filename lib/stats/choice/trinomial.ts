import { demand } from '@/lib/base/demand'
import { binomialLower, binomialMass } from '../distribution/binomial'
import { normalQuantile } from '../distribution/normal'
import type { Interval } from '../outcome'

/**
 * Do more answers fall on one side than on the other, when some say neither?
 *
 *     p = P(|A − B| ≥ |a − b|),   (A, B, none) multinomial on N = a + b + none with chances (1 − q)/2, (1 − q)/2, q = none / N
 *
 * @param a     answers for one side
 * @param b     answers for the other
 * @param none  answers for neither
 * @returns     two-sided p; with none = 0 the exact binomial p, with nobody on a side 1
 * @throws RangeError  a count that is not a whole number from 0
 *
 * Source   Bian, McAleer & Wong (2011), Mathematics and Computers in Simulation 81(6), 1153–1160
 * Checked  test/reference/bian-2011-trinomial.test.ts
 * Limits   The share of "neither" is taken as known; with few answers p is a little liberal.
 */
export function trinomialTest(a: number, b: number, none: number): number {
  for (const count of [a, b, none]) {
    demand(Number.isInteger(count) && count >= 0, `a count must be a whole number from 0, got ${count}`)
  }
  const N = a + b + none
  const apart = Math.abs(a - b)
  if (apart === 0) return 1
  const decided = (a + b) / N
  let p = 0
  for (let m = apart; m <= N; m += 1) {
    const tail = binomialLower(Math.floor((m - apart) / 2), m, 0.5)
    p += binomialMass(m, N, decided) * 2 * tail
  }
  return Math.min(1, p)
}

/**
 * By what share of all answers does one side lead?
 *
 *     d = (a − b) / N,   d ± z √((a + b) / N − d²) / √N
 *
 * @param level  coverage, 0 < level < 1
 * @returns      over all N ≥ 1 answers, those for neither included
 *
 * Source   multinomial variance of a difference of shares, Agresti, Categorical Data Analysis, 1.5
 * Checked  test/reference/bian-2011-trinomial.test.ts
 * Limits   Normal interval; collapses when all answers fall on one side.
 */
export function netPreference(
  a: number,
  b: number,
  none: number,
  level: number,
): { readonly estimate: number; readonly interval: Interval } {
  const N = a + b + none
  demand(N > 0, `a net preference needs at least one answer, got ${N}`)
  const estimate = (a - b) / N
  const reach = normalQuantile((1 + level) / 2) * Math.sqrt(Math.max(0, (a + b) / N - estimate ** 2) / N)
  return { estimate, interval: [estimate - reach, estimate + reach] }
}
