import { demand } from '@/lib/base/demand'
import { solveBetween } from '../distribution/solve'
import { guessingShare, hasDirection, type Protocol } from './protocol'
import { psychometric } from './psychometric'

/** Beyond this distance every share is 0 or 1 to the last digit. */
const FARTHEST = 40

/**
 * How far apart must the cups lie for this share of right answers?
 *
 * @param protocol  the difference test
 * @param share     of right answers, 0 ≤ share ≤ 1
 * @returns         d-prime; 0 at or below guessing where the protocol has no direction; null where no finite distance
 *                  gives the share (all right; none right under a forced choice)
 * @throws RangeError  share outside [0, 1]
 *
 * Source   Ennis (1993), J. Sensory Studies 8, 353–370
 * Checked  test/reference/difference-test.test.ts
 */
export function dPrimeOf(protocol: Protocol, share: number): number | null {
  demand(share >= 0 && share <= 1, `a share must lie between 0 and 1, got ${share}`)
  const guessing = guessingShare(protocol)
  if (share === 1) return null
  if (share <= guessing && !hasDirection(protocol)) return 0
  if (share === 0) return null
  if (share === guessing) return 0
  const gap = (d: number) => psychometric(protocol, d).share - share
  const sign = share > guessing ? 1 : -1
  let reach = 1
  while (sign * gap(sign * reach) < 0) {
    if (reach >= FARTHEST) return null
    reach *= 2
  }
  return sign > 0 ? solveBetween(gap, 0, reach) : solveBetween(gap, -reach, 0)
}

/**
 * How uncertain is that distance?
 *
 *     se = se of the share / P′(d);   of n independent answers the share's is √(p (1 − p) / n), `shareError`
 *
 * @param protocol  the difference test
 * @param share     of right answers
 * @param error     standard error of the share, ≥ 0; by taster where each gave several answers
 * @returns         the standard error, or null where d-prime is not finite or the slope there is 0
 *
 * Source   Bi, Ennis and O'Mahony (1997), J. Sensory Studies 12, 87–104
 * Checked  test/reference/difference-test.test.ts, test/reference/repeated-answers.test.ts
 */
export function dPrimeError(protocol: Protocol, share: number, error: number): number | null {
  demand(error >= 0 && Number.isFinite(error), `a standard error must be 0 or above, got ${error}`)
  const d = dPrimeOf(protocol, share)
  if (d === null || (share <= guessingShare(protocol) && !hasDirection(protocol))) return null
  const { slope } = psychometric(protocol, d)
  return slope > 0 ? error / slope : null
}

/** @returns the standard error of a share of n independent answers, n ≥ 1 */
export function shareError(share: number, n: number): number {
  demand(n >= 1, `a standard error needs at least one answer, got ${n}`)
  return Math.sqrt((share * (1 - share)) / n)
}
