import type { Claim } from './claims'
import type { FTest } from '../model/fixed-effects'
import type { Answer, Interval } from '../outcome'

export interface AcceptanceCounts {
  readonly tasters: number
  readonly cups: number
  readonly scores: number
  readonly missing: number
}

export interface ModelSummary {
  readonly formula: string
  readonly method: 'REML'
  readonly variance: {
    readonly taster: number | null
    readonly tasterByCup: number | null
    readonly residual: number | null
  }
  readonly remlCriterion: number | null
  readonly singular: boolean
}

export interface CupMeans {
  readonly cup: string
  readonly n: number
  readonly mean: number
  readonly sd: number | null
  readonly meanInterval: Interval | null
  readonly estimate: number
  readonly se: number | null
  readonly df: number | null
  readonly interval: Interval | null
}

/** A cup's means with the marginal mean's error by tasters. */
export interface RobustCupMeans extends CupMeans {
  readonly robust: { readonly se: number | null; readonly df: number | null; readonly interval: Interval | null }
}

export interface PairedDifference {
  readonly n: number
  readonly difference: number | null
  readonly se: number | null
  readonly df: number | null
  readonly t: number | null
  readonly p: number | null
  readonly interval: Interval | null
}

/** What model, signs and ranks say of one pair; a before b in label order, difference is always a − b. */
export interface ModelPair {
  readonly a: string
  readonly b: string
  readonly difference: number
  readonly se: number | null
  readonly df: number | null
  readonly t: number | null
  readonly p: number | null
  readonly pHolm: number | null
  readonly interval: Interval | null
  readonly effectSize: number | null
  readonly preferA: number
  readonly preferB: number
  readonly tied: number
  readonly shareA: { readonly estimate: number | null; readonly interval: Interval | null }
  readonly signedRank: { readonly statistic: number; readonly p: number; readonly exact: boolean } | null
}

export interface CupPair extends ModelPair {
  readonly pTukey: number | null
  readonly intervalTukey: Interval | null
  /** by the tasters' own errors, this pair alone */
  readonly robust: {
    readonly se: number | null
    readonly df: number | null
    readonly t: number | null
    readonly p: number | null
    readonly interval: Interval | null
  }
  /** null below two tasters who scored both, and where all differences are equal */
  readonly paired: (PairedDifference & { readonly pHolm: number | null }) | null
}

/** Cup less control, by the model. */
export interface ControlPair {
  readonly cup: string
  readonly difference: number
  readonly se: number | null
  readonly df: number | null
  readonly t: number | null
  readonly p: number | null
  readonly pDunnett: number | null
  readonly intervalDunnett: Interval | null
}

export interface RankSummary {
  readonly chiSquared: number
  readonly df: number
  readonly p: number | null
  readonly tasters: number
}

export interface AgreementSummary {
  readonly kendallW: number | null
  readonly icc: { readonly single: number | null; readonly average: number | null }
}

/** `means`: the model's marginal mean at each position, first position first */
export type PositionTest = FTest & { readonly means: readonly number[] }

/** Everything a result page shows about liking scores, in the keys of the `stats` command. */
export interface AcceptanceAnswer extends Answer<'acceptance', AcceptanceCounts> {
  readonly model: ModelSummary
  readonly overall: FTest
  readonly cups: readonly RobustCupMeans[]
  readonly plan: { readonly plan: 'all' | 'against' | 'pair'; readonly pairs: number; readonly level: number }
  readonly claims: readonly Claim[]
  readonly pairs: readonly CupPair[]
  /** cups that no cup is claimed better than, highest estimate first; null unless the plan is all */
  readonly top: readonly string[] | null
  /** largest groups of cups with no claim between them; null unless the plan is all */
  readonly groups: Readonly<Record<string, string>> | null
  readonly control: { readonly cup: string; readonly pairs: readonly ControlPair[] } | null
  readonly friedman: RankSummary | null
  readonly agreement: AgreementSummary | null
  readonly position: PositionTest | null
  readonly carryOver: FTest | null
}
