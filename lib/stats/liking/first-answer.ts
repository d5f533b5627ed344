import type {
  AcceptanceCounts,
  AgreementSummary,
  ControlPair,
  CupMeans,
  ModelPair,
  ModelSummary,
  PairedDifference,
  PositionTest,
  RankSummary,
} from './acceptance-answer'
import type { FTest } from '../model/fixed-effects'
import type { Answer, Interval } from '../outcome'

export type Basis = 'paired' | 'model'
export type PairOutcome = 'a better' | 'b better' | 'cannot tell'
export type ControlOutcome = 'better' | 'worse' | 'cannot tell'

export interface FirstPair extends ModelPair {
  readonly paired: PairedDifference & { readonly pHolm: number | null }
  readonly verdict: { readonly basis: Basis; readonly pHolm: number | null; readonly outcome: PairOutcome }
}

export interface FirstControlPair extends Omit<ControlPair, 'pDunnett' | 'intervalDunnett'> {
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

/** What a result page of the first rule shows. */
export interface FirstAnswer extends Answer<'acceptance', AcceptanceCounts> {
  readonly model: ModelSummary
  readonly overall: FTest
  readonly cups: readonly CupMeans[]
  readonly pairs: readonly FirstPair[]
  readonly top: readonly string[]
  readonly groups: Readonly<Record<string, string>>
  readonly control: { readonly cup: string; readonly pairs: readonly FirstControlPair[] } | null
  readonly margin: { readonly margin: number; readonly pairs: readonly MarginPair[] } | null
  readonly friedman: RankSummary | null
  readonly agreement: AgreementSummary | null
  readonly position: PositionTest | null
  readonly carryOver: FTest | null
}
