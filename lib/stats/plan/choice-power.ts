import { demand } from '@/lib/base/demand'
import { criticalNumber, similarityNumber } from '../difference/critical-number'
import { binomialLower, binomialUpper } from '../distribution/binomial'
import { normalQuantile } from '../distribution/normal'
import { type Aim, checkAim, sawToothNote, smallestSawToothed, type TastersAnswer } from './power'
import { guessingShare, type Protocol } from '../difference/protocol'

/** An exact binomial test as a plan sees it. */
interface ExactTest {
  readonly method: string
  readonly alpha: number
  readonly nullShare: number
  readonly trueShare: number
  readonly tails: 1 | 2
  critical(n: number): number | null
  power(n: number, critical: number | null): number
}

function plan(test: ExactTest, aim: Aim): TastersAnswer {
  checkAim(aim, 1)
  const at = (n: number) => test.power(n, test.critical(n))
  const found = 'n' in aim ? null : smallestSawToothed(at, aim.power, startOf(test, aim.power), toothOf(test))
  const n = 'n' in aim ? aim.n : (found?.first ?? NaN)
  const critical = test.critical(n)
  const notes = found && 'power' in aim ? [sawToothNote(found.first, found.forGood, aim.power)] : []
  if (critical === null)
    notes.push(`With ${n} tasters no count can reach significance at alpha ${test.alpha}: critical is null.`)
  const power = test.power(n, critical)
  return {
    verb: 'tasters',
    level: 1 - test.alpha,
    counts: { tasters: n },
    method: test.method,
    notes,
    n,
    power,
    critical,
  }
}

/** Half the number the normal approximation asks for: far below where an exact test can get, and no slow start at 1. */
function startOf(test: ExactTest, power: number): number {
  const spread = (share: number) => Math.sqrt(share * (1 - share))
  const reach =
    -normalQuantile(test.alpha / test.tails) * spread(test.nullShare) + normalQuantile(power) * spread(test.trueShare)
  const n = (Math.max(0, reach) / (test.trueShare - test.nullShare)) ** 2
  return n < 200 ? 1 : Math.floor(n / 2)
}

/** The critical number moves by one about every 1/share tasters. */
function toothOf(test: ExactTest): number {
  return Math.ceil(1 / Math.min(test.nullShare, 1 - test.nullShare))
}

function checkAlpha(alpha: number): void {
  demand(alpha > 0 && alpha < 1, `alpha must lie between 0 and 1, got ${alpha}`)
}

/**
 * How many tasters does a difference test need?
 *
 *     power = P(X ≥ c), X binomial with n and g + (1 − g)·pd,  c the critical number at n
 *
 * @param question  protocol; pd, the share of tasters who can tell, 0 < pd ≤ 1; alpha, 0 < alpha < 1
 * @param aim       the power to reach, or n
 * @returns         smallest n, its power and critical number; the note says from which n on the power holds for good
 * @throws RangeError  a number outside its range; no panel of a million reaches the power
 *
 * Source   ISO 4120, ISO 10399 (tables of numbers of tasters)
 * Checked  test/reference/difference-power.test.ts
 * Cost     proportional to n
 */
export function tastersForDifference(
  question: { readonly protocol: Protocol; readonly pd: number; readonly alpha: number },
  aim: Aim,
): TastersAnswer {
  const { protocol, pd, alpha } = question
  checkAlpha(alpha)
  demand(pd > 0 && pd <= 1, `the share who can tell must lie above 0 and at most at 1, got ${pd}`)
  const guessing = guessingShare(protocol)
  const trueShare = guessing + (1 - guessing) * pd
  return plan(
    {
      method: `${protocol}: power of the exact one-sided binomial test at alpha ${alpha}`,
      alpha,
      nullShare: guessing,
      trueShare,
      tails: 1,
      critical: (n) => criticalNumber(n, guessing, alpha),
      power: (n, c) => (c === null ? 0 : binomialUpper(c - 1, n, trueShare)),
    },
    aim,
  )
}

/**
 * How many tasters does it take to call two cups similar?
 *
 *     power = P(X ≤ c), X binomial with n and g + (1 − g)·truth,  c the largest count with P(X ≤ c) ≤ α at g + (1 − g)·pd
 *
 * @param question  protocol; pd, the share who can tell to rule out; alpha, the risk of calling similar what is not;
 *                  truth, the share who really can tell, 0 ≤ truth < pd (0 where not given)
 * @param aim       the power to reach, or n
 * @returns         smallest n, its power and the largest count that still means similar
 * @throws RangeError  a number outside its range; no panel of a million reaches the power
 *
 * Source   ISO 4120, ISO 10399 (tables for similarity)
 * Checked  test/reference/difference-power.test.ts
 * Cost     proportional to n
 */
export function tastersForSimilarity(
  question: {
    readonly protocol: Protocol
    readonly pd: number
    readonly alpha: number
    readonly truth?: number | undefined
  },
  aim: Aim,
): TastersAnswer {
  const { protocol, pd, alpha, truth = 0 } = question
  checkAlpha(alpha)
  demand(pd > 0 && pd < 1, `the share who can tell must lie between 0 and 1, got ${pd}`)
  demand(truth >= 0 && truth < pd, `the true share who can tell must lie from 0 to below ${pd}, got ${truth}`)
  const guessing = guessingShare(protocol)
  const limitShare = guessing + (1 - guessing) * pd
  const trueShare = guessing + (1 - guessing) * truth
  return plan(
    {
      method: `${protocol}: power of the exact one-sided binomial test for similarity at alpha ${alpha}; similar at or below the critical number`,
      alpha,
      nullShare: limitShare,
      trueShare,
      tails: 1,
      critical: (n) => similarityNumber(n, limitShare, alpha),
      power: (n, c) => (c === null ? 0 : binomialLower(c, n, trueShare)),
    },
    aim,
  )
}

/**
 * How many tasters does a preference between two cups need?
 *
 *     power = P(X ≥ c) + P(X ≤ n − c), X binomial with n and the share,  c the two-sided critical number against one half
 *
 * @param question  share who prefer one cup, 0 < share < 1, not one half; alpha, two-sided, 0 < alpha < 1
 * @param aim       the power to reach, or n
 * @returns         smallest n, its power and critical number
 * @throws RangeError  a number outside its range; no panel of a million reaches the power
 *
 * Source   ISO 5495
 * Checked  test/reference/difference-power.test.ts
 * Limits   everybody has a preference; those without one come on top
 * Cost     proportional to n
 */
export function tastersForPreference(
  question: { readonly share: number; readonly alpha: number },
  aim: Aim,
): TastersAnswer {
  const { share, alpha } = question
  checkAlpha(alpha)
  demand(share > 0 && share < 1, `the share who prefer one cup must lie between 0 and 1, got ${share}`)
  demand(share !== 0.5 || 'n' in aim, `a share of one half is no preference to find, got ${share}`)
  return plan(
    {
      method: `preference: power of the exact two-sided binomial test against one half at alpha ${alpha}`,
      alpha,
      nullShare: 0.5,
      trueShare: share,
      tails: 2,
      critical: (n) => criticalNumber(n, 0.5, alpha / 2),
      power: (n, c) => (c === null ? 0 : binomialUpper(c - 1, n, share) + binomialLower(n - c, n, share)),
    },
    aim,
  )
}
