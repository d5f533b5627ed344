import 'server-only'
import { findAim, type Aim, type PrimaryKind } from '@/lib/panel/plan'
import type { QuestionColumns, QuestionKind } from '@/lib/panel/question'
import { acceptance, type AcceptanceAnswer } from '@/lib/stats/liking/acceptance'
import type { AcceptanceRow } from '@/lib/stats/liking/acceptance-row'
import type { PlanOptions } from '@/lib/stats/liking/claim-plan'
import { UnusableReadings } from '@/lib/stats/outcome'

const panelLevel = 0.95
/** Not worse is asked of one side: five per cent each side is an interval at 90 %. */
const marginLevel = 0.9
const lowestScore = 1
/** The only reason that says something about liking; the others say why there is no score. */
const dislike = 'rather-not'

/** What an answer needs to know of a closed panel: its plan, its aspects with overall liking first, its cups in plan order. */
export interface AnsweredPanel {
  /** what was asked of tasters; absent: liking of each cup */
  readonly kind?: string
  readonly design?: string | null
  /** best | better | as-good; null before that was asked */
  readonly aim: string | null
  readonly primaryKind: string
  readonly primaryTrialAId: string | null
  readonly primaryTrialBId: string | null
  /** tenths of a point, as the next one */
  readonly smallestDifference: number
  readonly notWorseMargin: number | null
  readonly attributes: readonly (QuestionColumns & { readonly id: string })[]
  readonly cups: readonly {
    readonly trialId: string
    readonly isHouse: boolean
    readonly isDuplicate: boolean
    readonly trial: { readonly name: string; readonly number: number }
  }[]
}

/** What an answer needs to know of a serving. Of the moments it only matters whether there was one. */
export interface AnsweredServing {
  readonly position: number
  readonly skippedAt: Date | string | null
  readonly skipReason: string | null
  readonly cup: { readonly trialId: string; readonly isDuplicate: boolean }
  readonly seat: {
    readonly number: number
    readonly takenAt: Date | string | null
    readonly repeatOfSeatId?: string | null
    readonly taster?: { readonly name: string | null } | null
  }
  /** the set it was answered in; null or absent: by itself */
  readonly set?: {
    readonly number: number
    readonly answers: readonly { readonly answer: string; readonly source: string; readonly at: Date | string }[]
  } | null
  readonly scores: readonly { readonly attributeId: string; readonly value: number }[]
}

/** A trial as it stands in a result: its letter runs through every plot, table and sentence of the panel. */
export interface ResultCup {
  /** "A", "B", … in the order of the plan; the label the statistics know it by */
  readonly letter: string
  readonly trialId: string
  readonly trialNumber: number
  readonly name: string
  readonly isHouse: boolean
  /** poured twice to each taster, as a hidden duplicate */
  readonly isTwice: boolean
}

/** One further look at the scores: an aspect, its answer, or why there is none. */
export interface AspectAnswer {
  readonly attributeId: string
  readonly name: string
  /** liked on nine steps, or how strong it is from 0 to 100 */
  readonly kind: QuestionKind
  readonly answer: AcceptanceAnswer | null
  readonly why: string | null
}

/** The trials of a panel in plan order, each once. */
export function resultCups(panel: Pick<AnsweredPanel, 'cups'>): ResultCup[] {
  const own = panel.cups.filter((cup) => !cup.isDuplicate)
  return own.map((cup, place) => ({
    letter: String.fromCharCode('A'.charCodeAt(0) + place),
    trialId: cup.trialId,
    trialNumber: cup.trial.number,
    name: cup.trial.name,
    isHouse: cup.isHouse,
    isTwice: panel.cups.some((other) => other.isDuplicate && other.trialId === cup.trialId),
  }))
}

/** The score that counts: one given before the cup was skipped does not. */
export function countedScore(
  serving: Pick<AnsweredServing, 'skippedAt' | 'scores'>,
  attributeId: string,
): number | null {
  if (serving.skippedAt) return null
  return serving.scores.find((one) => one.attributeId === attributeId)?.value ?? null
}

/** Was the cup skipped for a reason that means dislike? */
export function saysDislike({ skippedAt, skipReason }: Pick<AnsweredServing, 'skippedAt' | 'skipReason'>): boolean {
  return skippedAt !== null && skipReason === dislike
}

/** The long table the statistics take: one row per serving, null where nothing was said. Late scores are not in it. */
export function scoreRows(
  servings: readonly AnsweredServing[],
  cups: readonly ResultCup[],
  attributeId: string,
): AcceptanceRow[] {
  const letterOf = new Map(cups.map((cup) => [cup.trialId, cup.letter]))
  const twice = cups.some((cup) => cup.isTwice)
  return servings.flatMap((serving) => {
    const letter = letterOf.get(serving.cup.trialId)
    // A seat that nobody took gave nothing; it is not a missing answer of anyone.
    const taken = serving.seat.takenAt !== null || serving.scores.length > 0
    if (!letter || !taken) return []
    const score = countedScore(serving, attributeId)
    return [
      {
        taster: String(serving.seat.number),
        cup: letter,
        score,
        position: serving.position,
        replicate: twice ? (serving.cup.isDuplicate ? '2' : '1') : null,
        skipped: saysDislike(serving),
      },
    ]
  })
}

/** Which question was fixed before the first cup: the aim, which cups it is about, and how small a difference matters. */
export function planned(panel: Omit<AnsweredPanel, 'cups' | 'attributes'>, cups: readonly ResultCup[]): Planned {
  const house = cups.find((cup) => cup.isHouse)?.letter ?? null
  const letterOf = (trialId: string | null) => cups.find((cup) => cup.trialId === trialId)?.letter ?? null
  const kind = kinds.find((one) => one === panel.primaryKind) ?? 'all-pairs'
  const margin = panel.notWorseMargin === null ? null : panel.notWorseMargin / 10
  return {
    aim: findAim(panel.aim, { primaryKind: kind, notWorseMargin: panel.notWorseMargin }),
    kind,
    house,
    pair: [letterOf(panel.primaryTrialAId), letterOf(panel.primaryTrialBId)],
    smallestDifference: panel.smallestDifference / 10,
    margin,
  }
}

const kinds: readonly PrimaryKind[] = ['all-pairs', 'against-house', 'one-pair']

export interface Planned {
  readonly aim: Aim
  readonly kind: PrimaryKind
  readonly house: string | null
  readonly pair: readonly [string | null, string | null]
  /** points, as the next one */
  readonly smallestDifference: number
  readonly margin: number | null
}

/** The plan in the words of the analysis. */
export function planOptions({ kind, house, pair: [a, b] }: Planned): PlanOptions {
  if (kind === 'against-house' && house !== null) return { plan: 'against', control: house }
  if (kind === 'one-pair' && a !== null && b !== null) return { plan: 'pair', pair: [a, b] }
  return { plan: 'all' }
}

/** The answer for one aspect, by the contract's acceptance analysis. A plan of one pair uses the scores of its two cups alone. */
export function answerFor(
  rows: readonly AcceptanceRow[],
  options: PlanOptions,
  margin: number | null,
): { answer: AcceptanceAnswer | null; why: string | null } {
  if (rows.every((row) => row.score === null)) return { answer: null, why: null }
  try {
    const replicated = rows.some((row) => row.replicate === '2')
    const withMargin = margin === null ? {} : { margin, marginLevel }
    const common = { level: panelLevel, replicated, skipsCountAs: lowestScore }
    return { answer: acceptance(rows, { ...common, ...options, ...withMargin }), why: null }
  } catch (error) {
    if (error instanceof UnusableReadings) return { answer: null, why: error.message }
    throw error
  }
}
