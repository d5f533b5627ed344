import type { BlindAsk } from '../blind'
import type { Pourings } from '../portions'
import type { QuestionColumns } from '../question'

/** What such a kind looks at in a plan. */
export interface SetPlan {
  readonly cups: readonly { readonly trialId: string; readonly isDuplicate: boolean }[]
  /** asked of each cup, which no such kind does */
  readonly aspects: readonly unknown[]
  readonly cupsPerTaster: number | null
  /** what can be seen and gives a cup away, in words */
  readonly seenThrough: string | null
}

export type SetPlanProblem =
  | 'too-few-cups'
  | 'same-trial-twice'
  | 'duplicate-of-two'
  | 'two-cups-only'
  | 'only-its-own-question'
  | 'all-cups-in-a-set'
  | 'share-out-of-range'
  | 'cups-for-an-order'
  | 'duplicate-in-an-order'
  | DifferencePlanProblem

/** What keeps a plan that asks whether two can be told apart from being poured. */
export type DifferencePlanProblem =
  | 'seen-and-not-masked'
  | 'property-not-said'
  | 'property-for-nothing'
  | 'method-asks-a-property'
  | 'method-asks-no-property'
  | 'telling-out-of-range'
  | 'answers-out-of-range'
  | 'one-answer-each'
  | 'property-looks-one-way'
  | 'one-answer-of-a-property'
  | 'too-many-pourings'

export interface FoundInSetPlan {
  readonly field: 'cups' | 'duplicate' | 'aspects' | 'cupsPerTaster' | 'share' | 'above' | `odd.${string}`
  readonly problem: SetPlanProblem
}

/** A question about a set: how it is asked, and what answers it. */
export interface SetQuestionRoom {
  /** as `PanelAttribute.kind` has it */
  readonly asks: string
  /**
   * May this be an answer about a set?
   *
   * @param positions  of the servings of this set at its seat
   * @param answer     positions too; what their order and number say is the kind's
   */
  isAnswer(question: QuestionColumns, positions: readonly number[], answer: readonly number[]): boolean
  /** how a phone or a ballot asks it */
  ask(question: QuestionColumns): BlindAsk
}

/** What stands on the trays of a kind that pours a cup more than once, or in several sets. */
export interface SetTrays<Design> {
  /** servings in one set */
  perSet(design: Design): number
  /** at one seat */
  pourings(design: Design): Pourings
  /**
   * What goes on the trays of new seats?
   *
   * @param dealt    of the seats there are: numbers of the design, in the order of tasting
   * @param howMany  new seats
   * @param chance   the panel's seed; `first` is the number of the cup that the plan names first
   * @returns        the new seats' trays only, as `dealt`: set after set
   */
  deal(
    design: Design,
    dealt: readonly (readonly number[])[],
    howMany: number,
    chance: { readonly seed: number; readonly first: number },
  ): number[][]
}

/**
 * What a kind of panel that is answered about a set of servings says of itself. One file in this folder fills it, and the table
 * in `kinds.ts` names it; how to add one stands in DEVELOPERS.md.
 */
export interface SetKindRoom<Design> extends SetQuestionRoom {
  /** what keeps such a plan from being poured, beside what holds for every plan */
  problems(plan: SetPlan, design: Design): readonly FoundInSetPlan[]
  /** the one question about a set, as it is kept */
  question(design: Design): QuestionColumns
  /** what a panel keeps as its design; never fails: what cannot be read is as a new plan has it */
  readDesign(kept: Readonly<Record<string, unknown>>): Design
  /** absent: each seat has every cup once, all in one set, in the orders of a panel of liking */
  readonly trays?: SetTrays<Design>
}

/** An answer about a set, as it is kept: JSON, positions of servings. @returns null for a text that is none */
export function readSetAnswer(text: string): readonly number[] | null {
  try {
    const read: unknown = JSON.parse(text)
    if (!Array.isArray(read)) return null
    const positions = read.filter((one): one is number => Number.isInteger(one))
    return positions.length === read.length ? positions : null
  } catch {
    return null
  }
}
