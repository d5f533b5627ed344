import type { FTest } from './fixed-effects'
import type { Answer, Interval } from './outcome'

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

export type Basis = 'paired' | 'model'
export type PairOutcome = 'a better' | 'b better' | 'cannot tell'
export type ControlOutcome = 'better' | 'worse' | 'cannot tell'

export interface PairedDifference {
  readonly n: number
  readonly difference: number | null
  readonly se: number | null
  readonly df: number | null
  readonly t: number | null
  readonly p: number | null
  readonly interval: Interval | null
}

export interface CupPair {
  readonly a: string
  readonly b: string
  readonly difference: number
  readonly se: number | null
  readonly df: number | null
  readonly t: number | null
  readonly p: number | null
  readonly pHolm: number | null
  readonly pTukey: number | null
  readonly interval: Interval | null
  readonly intervalTukey: Interval | null
  readonly effectSize: number | null
  readonly paired: PairedDifference & { readonly pHolm: number | null }
  readonly preferA: number
  readonly preferB: number
  readonly tied: number
  readonly shareA: { readonly estimate: number | null; readonly interval: Interval | null }
  readonly signedRank: { readonly statistic: number; readonly p: number; readonly exact: boolean } | null
  readonly verdict: { readonly basis: Basis; readonly pHolm: number | null; readonly outcome: PairOutcome }
}

export interface ControlPair {
  readonly cup: string
  readonly difference: number
  readonly se: number | null
  readonly df: number | null
  readonly t: number | null
  readonly p: number | null
  readonly pDunnett: number | null
  readonly intervalDunnett: Interval | null
  readonly verdict: { readonly basis: Basis; readonly pHolm: number | null; readonly outcome: ControlOutcome }
}

export interface OneSided {
  readonly p: number | null
  readonly holds: boolean
}

export interface MarginPair {
  readonly a: string
  readonly b: string
  readonly basis: Basis
  readonly pEquivalent: number | null
  readonly equivalent: boolean
  readonly interval: Interval | null
  readonly aNotWorse: OneSided
  readonly bNotWorse: OneSided
  readonly aBetterByMargin: OneSided
  readonly bBetterByMargin: OneSided
}

/** Everything a result page shows about liking scores, in the keys of the `stats` command. */
export interface AcceptanceAnswer extends Answer<'acceptance', AcceptanceCounts> {
  readonly model: ModelSummary
  readonly overall: FTest
  readonly cups: readonly CupMeans[]
  /** a before b in label order; difference is always a − b */
  readonly pairs: readonly CupPair[]
  readonly top: readonly string[]
  readonly groups: Readonly<Record<string, string>>
  readonly control: { readonly cup: string; readonly pairs: readonly ControlPair[] } | null
  readonly margin: { readonly margin: number; readonly pairs: readonly MarginPair[] } | null
  readonly friedman: {
    readonly chiSquared: number
    readonly df: number
    readonly p: number | null
    readonly tasters: number
  } | null
  readonly agreement: {
    readonly kendallW: number | null
    readonly icc: { readonly single: number | null; readonly average: number | null }
  } | null
  /** `means`: the model's marginal mean at each position, first position first */
  readonly position: (FTest & { readonly means: readonly number[] }) | null
  readonly carryOver: FTest | null
}
