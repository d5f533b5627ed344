import 'server-only'
import { firstVerdict as acceptance } from '@/lib/stats/liking/first-verdict'
import type { FirstAnswer as AcceptanceAnswer } from '@/lib/stats/liking/first-answer'
import type { AcceptanceRow } from '@/lib/stats/liking/acceptance-row'
import { UnusableReadings } from '@/lib/stats/outcome'

const panelLevel = 0.95

/** What an answer needs to know of a closed panel: its plan, its aspects with overall liking first, its cups in plan order. */
export interface AnsweredPanel {
  readonly primaryKind: string
  readonly primaryTrialAId: string | null
  readonly primaryTrialBId: string | null
  /** tenths of a point, as the next one */
  readonly smallestDifference: number
  readonly notWorseMargin: number | null
  readonly attributes: readonly { readonly id: string; readonly name: string }[]
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
  readonly cup: { readonly trialId: string; readonly isDuplicate: boolean }
  readonly seat: { readonly number: number; readonly takenAt: Date | string | null }
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
function countedScore(serving: Pick<AnsweredServing, 'skippedAt' | 'scores'>, attributeId: string): number | null {
  if (serving.skippedAt) return null
  return serving.scores.find((one) => one.attributeId === attributeId)?.value ?? null
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
      },
    ]
  })
}

/** Which cup is the yardstick, and which pair is the question, by the plan that was fixed before the first cup. */
export function planned(panel: Omit<AnsweredPanel, 'cups' | 'attributes'>, cups: readonly ResultCup[]) {
  const house = cups.find((cup) => cup.isHouse)?.letter ?? null
  const letterOf = (trialId: string | null) => cups.find((cup) => cup.trialId === trialId)?.letter ?? null
  return {
    kind: panel.primaryKind,
    house,
    pair: [letterOf(panel.primaryTrialAId), letterOf(panel.primaryTrialBId)] as const,
    smallestDifference: panel.smallestDifference / 10,
    margin: panel.notWorseMargin === null ? null : panel.notWorseMargin / 10,
  }
}

export type Planned = ReturnType<typeof planned>

/** The answer for one aspect over all cups, by the contract's acceptance analysis. */
export function answerFor(
  rows: readonly AcceptanceRow[],
  plan: Planned,
): { answer: AcceptanceAnswer | null; why: string | null } {
  const scored = new Set(rows.filter((row) => row.score !== null).map((row) => row.cup))
  if (scored.size === 0) return { answer: null, why: 'Nobody scored any cup.' }
  const control = plan.kind === 'against-house' && plan.house && scored.has(plan.house) ? { control: plan.house } : {}
  const margin = plan.margin === null ? {} : { margin: plan.margin }
  try {
    const replicated = rows.some((row) => row.replicate === '2')
    return { answer: acceptance(rows, { level: panelLevel, ...control, ...margin, replicated }), why: null }
  } catch (error) {
    if (error instanceof UnusableReadings) return { answer: null, why: error.message }
    throw error
  }
}

/** One pair was the question: a family of one comparison, over the scores of its two cups. */
export function primaryAnswer(
  rows: readonly AcceptanceRow[],
  plan: Planned,
): { answer: AcceptanceAnswer | null; why: string | null } {
  if (plan.kind !== 'one-pair') return answerFor(rows, plan)
  return answerFor(
    rows.filter((row) => plan.pair.includes(row.cup)),
    plan,
  )
}
