import { lost } from '@/lib/base/lost'
import { around, studentReach } from '../model/contrast'
import type { ClaimPlan } from './claim-plan'
import type { LikingReading } from './liking-reading'
import { cupDifference } from './marginal-mean'
import type { Interval } from '../outcome'

export type ClaimWord = 'a better' | 'b better' | 'cannot tell' | 'too few tasters'
export type MarginWord =
  'a better by the margin' | 'b better by the margin' | 'as good' | 'a not worse' | 'b not worse' | 'cannot tell'

/** Where one joint interval lies, and what may be said because of it. */
export interface Judgement {
  readonly low: number | null
  readonly high: number | null
  readonly claim: ClaimWord
  readonly byMargin: MarginWord | null
}

export interface Claim extends Judgement {
  readonly a: string
  readonly b: string
  /** who scored both */
  readonly tasters: number
  readonly difference: number
  readonly se: number | null
  readonly df: number | null
  readonly lowMargin: number | null
  readonly highMargin: number | null
  /** the same with every skipped cup at the lowest score */
  readonly ifSkipsLowest: Judgement | null
}

export interface ClaimRules {
  /** all intervals of the plan hold together with about this probability */
  readonly level: number
  readonly margin: number | null
  /** the same for what is said by the margin */
  readonly marginLevel: number
  /** the scores' step, 0 for none */
  readonly step: number
}

/** What was found of one pair before and beside the words. */
export interface FoundClaim extends Omit<Claim, 'ifSkipsLowest'> {
  /** the error is that of rounding to the step */
  readonly floored: boolean
}

/** Below these nothing is claimed: simulated, the joint intervals hold what they promise from here on. */
export const FEWEST_TASTERS = 6
const FEWEST_DF = 4

/**
 * Which of the planned comparisons does the panel settle?
 *
 *     joint interval: difference ± t(1 − α/(2m), df) · se,   m pairs in the plan, α = 1 − level
 *     se: by the tasters alone (CR2), at least S/√(6n): the rounding error of scores on steps of S, n who scored both
 *     low > 0: a better;   high < 0: b better;   with a margin M, at its own level, the first that holds of
 *     low > M, high < −M, −M < low and high < M, low > −M, high < M
 *
 * @param reading  scores and model; pairs of the plan with a cup that nobody scored are left out, m stays
 *
 * Source   Bonferroni's inequality with separate errors: Maxwell (1980), J. Educ. Stat. 5(3), 269–287; rounding error
 *          S²/12 of each score: Sheppard (1898), Proc. Lond. Math. Soc. 29, 353–380.
 * Checked  test/reference/claims-r-cases.test.ts; coverage: test/reference/coverage-of-claims.test.ts
 * Limits   level − 0.9 points at worst from 6 tasters and 4 degrees of freedom on; below that nothing is claimed.
 */
export function foundClaims(
  { table, means, model, errors }: LikingReading,
  { pairs }: ClaimPlan,
  rules: ClaimRules,
): readonly FoundClaim[] {
  if (!model) return []
  const places = new Map(table.cups.map((cup, i) => [cup, i]))
  return pairs.flatMap(([a, b]) => {
    const [i, j] = [places.get(a), places.get(b)]
    if (i === undefined || j === undefined) return []
    const contrast = cupDifference(model.design, i, j)
    const difference = contrast.reduce((sum, weight, k) => sum + weight * (model.beta[k] ?? lost()), 0)
    const tasters = scoredBoth(means, i, j)
    const error = errors?.(contrast) ?? null
    const floor = tasters > 0 ? rules.step / Math.sqrt(6 * tasters) : 0
    const own = error === null || error.se > 64 * table.grain ? (error?.se ?? null) : 0
    const floored = own !== null && own < floor
    const se = floored ? floor : own
    const df = error?.df ?? null
    const found = { tasters, difference, se, df }
    return [{ a, b, ...found, ...judge(found, means.tasters, pairs.length, rules), floored }]
  })
}

type Found = Pick<Claim, 'difference' | 'se' | 'df'>

/**
 * What may be said of one difference?
 *
 * @param found  the difference, its error (null where it cannot be had) and degrees of freedom
 * @param panel  tasters in the panel
 * @param pairs  comparisons of the plan
 *
 * Checked  test/unit/stats/liking/claims.test.ts
 */
export function judge(found: Found, panel: number, pairs: number, rules: ClaimRules) {
  const { margin } = rules
  const interval = jointInterval(found, pairs, rules.level)
  const wide = margin === null ? null : jointInterval(found, pairs, rules.marginLevel)
  const few = panel < FEWEST_TASTERS || found.se === null || found.df === null || found.df < FEWEST_DF * (1 - 1e-9)
  return {
    low: interval?.[0] ?? null,
    high: interval?.[1] ?? null,
    claim: few ? ('too few tasters' as const) : claimOf(interval),
    lowMargin: wide?.[0] ?? null,
    highMargin: wide?.[1] ?? null,
    byMargin: few || margin === null ? null : byMarginOf(wide, margin),
  }
}

function jointInterval({ difference, se, df }: Found, pairs: number, level: number): Interval | null {
  if (se === null || df === null || !(se > 0)) return null
  const interval = around(difference, se, studentReach(1 - (1 - level) / pairs, df))
  return interval.every(Number.isFinite) ? interval : null
}

/** What an interval of a − b says. */
export function claimOf(interval: Interval | null): ClaimWord {
  if (!interval) return 'cannot tell'
  const [low, high] = interval
  return low > 0 ? 'a better' : high < 0 ? 'b better' : 'cannot tell'
}

/** What an interval of a − b says beside a margin: the first that holds. */
export function byMarginOf(interval: Interval | null, margin: number): MarginWord {
  if (!interval) return 'cannot tell'
  const [low, high] = interval
  if (low > margin) return 'a better by the margin'
  if (high < -margin) return 'b better by the margin'
  if (low > -margin && high < margin) return 'as good'
  if (low > -margin) return 'a not worse'
  return high < margin ? 'b not worse' : 'cannot tell'
}

function scoredBoth({ tasters, cups, counts }: LikingReading['means'], i: number, j: number): number {
  let n = 0
  for (let from = 0; from < tasters * cups; from += cups) if (counts[from + i] && counts[from + j]) n++
  return n
}

/**
 * On which steps do these scores lie?
 *
 * @returns 1 if every score is a whole number, otherwise 0: unknown
 */
export function scoreStep(scores: readonly (number | null)[]): 0 | 1 {
  return scores.every((score) => score === null || Number.isInteger(score)) ? 1 : 0
}
