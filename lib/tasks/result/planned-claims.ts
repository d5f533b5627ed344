import 'server-only'
import type { CupPair } from '@/lib/stats/liking/acceptance-answer'
import type { AcceptanceAnswer } from '@/lib/stats/liking/acceptance'
import type { Claim, ClaimWord, MarginWord } from '@/lib/stats/liking/claims'
import type { Interval } from '@/lib/stats/outcome'

/** What may be said of the first cup beside the second. */
export type SaidClaim = 'better' | 'worse' | 'cannot tell' | 'too few tasters'
/** What may be said of the first cup beside the second and a margin. */
export type SaidByMargin =
  'better by the margin' | 'worse by the margin' | 'as good' | 'not worse' | 'second not worse' | 'cannot tell'

/** A planned comparison, turned so that the first cup is the one spoken of. Differences are first less second. */
export interface PlannedClaim {
  readonly first: string
  readonly second: string
  /** who scored both */
  readonly tasters: number
  readonly difference: number
  /** holds together with all others of the plan at the level */
  readonly interval: Interval | null
  readonly claim: SaidClaim
  /** the same at the margin's level; null without a margin */
  readonly marginInterval: Interval | null
  readonly byMargin: SaidByMargin | null
  /** what becomes of both when cups that somebody would rather not drink count as the lowest score */
  readonly ifSkipsLowest: { readonly claim: SaidClaim; readonly byMargin: SaidByMargin | null } | null
  readonly preferFirst: number
  readonly preferSecond: number
  readonly tied: number
}

/**
 * The claims of a plan, each from the side one speaks of: against a yardstick the other cup, else the one liked better.
 *
 * @param yardstick  the cup all are held against; null where every pair is compared
 */
export function plannedClaims(answer: AcceptanceAnswer, yardstick: string | null): PlannedClaim[] {
  return answer.claims.map((claim) => {
    const pair = answer.pairs.find((one) => isOf(one, claim))
    const isFirst = yardstick === null ? claim.difference >= 0 : claim.b === yardstick
    return turned(claim, pair, isFirst)
  })
}

const isOf = (pair: CupPair, { a, b }: Claim) => (pair.a === a && pair.b === b) || (pair.a === b && pair.b === a)

function turned(claim: Claim, pair: CupPair | undefined, isFirst: boolean): PlannedClaim {
  const first = isFirst ? claim.a : claim.b
  const second = isFirst ? claim.b : claim.a
  const prefer = (cup: string) => (pair ? (pair.a === cup ? pair.preferA : pair.preferB) : 0)
  const skips = claim.ifSkipsLowest
  return {
    first,
    second,
    tasters: claim.tasters,
    difference: isFirst ? claim.difference : -claim.difference,
    interval: turn(claim.low, claim.high, isFirst),
    claim: turnClaim(claim.claim, isFirst),
    marginInterval: turn(claim.lowMargin, claim.highMargin, isFirst),
    byMargin: turnMargin(claim.byMargin, isFirst),
    ifSkipsLowest: skips && {
      claim: turnClaim(skips.claim, isFirst),
      byMargin: turnMargin(skips.byMargin, isFirst),
    },
    preferFirst: prefer(first),
    preferSecond: prefer(second),
    tied: pair?.tied ?? 0,
  }
}

function turn(low: number | null, high: number | null, isFirst: boolean): Interval | null {
  if (low === null || high === null) return null
  return isFirst ? [low, high] : [-high, -low]
}

function turnClaim(claim: ClaimWord, isFirst: boolean): SaidClaim {
  if (claim === 'cannot tell' || claim === 'too few tasters') return claim
  return (claim === 'a better') === isFirst ? 'better' : 'worse'
}

const forFirst: Readonly<Record<MarginWord, SaidByMargin>> = {
  'a better by the margin': 'better by the margin',
  'b better by the margin': 'worse by the margin',
  'as good': 'as good',
  'a not worse': 'not worse',
  'b not worse': 'second not worse',
  'cannot tell': 'cannot tell',
}

const forSecond: Readonly<Record<MarginWord, SaidByMargin>> = {
  'a better by the margin': 'worse by the margin',
  'b better by the margin': 'better by the margin',
  'as good': 'as good',
  'a not worse': 'second not worse',
  'b not worse': 'not worse',
  'cannot tell': 'cannot tell',
}

const turnMargin = (word: MarginWord | null, isFirst: boolean): SaidByMargin | null =>
  word === null ? null : (isFirst ? forFirst : forSecond)[word]
