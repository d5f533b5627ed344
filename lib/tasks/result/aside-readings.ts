import 'server-only'
import { answerPanel } from './answer-panel'
import type { ClosedServing } from './closed-servings'
import { yardstickOf } from './headline'
import type { AnsweredPanel } from './panel-answers'
import { plannedClaims, type PlannedClaim } from './planned-claims'
import type { Verdict } from './say-verdict'

/** The other reading of a panel with seats set aside: it stands beside the claim and never carries it. */
export interface AsideReading {
  /** with every seat, those set aside before closing too; or without any seat that is set aside */
  readonly which: 'with-all' | 'without-any'
  /** how many seats make the difference */
  readonly seats: number
  readonly verdict: Verdict
  readonly claims: readonly PlannedClaim[]
}

/** A seat that the house has set aside, for whoever may read its words. */
export interface SeatAside {
  readonly seat: number
  readonly when: 'before-closing' | 'after-closing'
  readonly why: string
  readonly byId: string | null
  readonly at: Date
}

/**
 * @param later  as `answerPanel` has it
 * @returns      none for a panel whose seats all count
 */
export function asideReadings(
  panel: AnsweredPanel,
  servings: readonly ClosedServing[],
  later: readonly number[] | null = null,
): readonly AsideReading[] {
  const seats = (when: SeatAside['when']) =>
    new Set(servings.filter(({ aside }) => aside === when).map(({ seat }) => seat.number)).size
  const [before, after] = [seats('before-closing'), seats('after-closing')]
  return [
    ...(before > 0 ? [readingOf(panel, servings, 'with-all', before, later)] : []),
    ...(after > 0 ? [readingOf(panel, withoutAny(servings), 'without-any', before + after, later)] : []),
  ]
}

const withoutAny = (servings: readonly ClosedServing[]) => servings.filter(({ aside }) => aside === null)

function readingOf(
  panel: AnsweredPanel,
  servings: readonly ClosedServing[],
  which: AsideReading['which'],
  seats: number,
  later: readonly number[] | null,
): AsideReading {
  const { verdict, primary, plan } = answerPanel(panel, servings, later)
  return { which, seats, verdict, claims: primary ? plannedClaims(primary, yardstickOf(plan)) : [] }
}

export function seatsAside(servings: readonly ClosedServing[]): readonly SeatAside[] {
  const seats = new Map(servings.map(({ seat, aside }) => [seat.number, { seat, aside }]))
  return [...seats.values()].flatMap(({ seat, aside }) =>
    aside === null || seat.setAsideAt === null
      ? []
      : [
          {
            seat: seat.number,
            when: aside,
            why: seat.setAsideWhy ?? '',
            byId: seat.setAsideById,
            at: seat.setAsideAt,
          },
        ],
  )
}
