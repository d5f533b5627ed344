import type { ListName } from './pouring-list'
import { findSetAside } from './set-aside'

/** Why somebody must not taste at a panel. */
export type TooMuch = 'opened-serving-list' | 'opened-both-lists'

/** The reason as the database keeps it. @returns null for a seat that may go on */
export function findTooMuch(seat: {
  readonly barredAt: Date | null
  readonly barredWhy: string | null
}): TooMuch | null {
  if (seat.barredAt === null) return null
  return seat.barredWhy === 'opened-both-lists' ? 'opened-both-lists' : 'opened-serving-list'
}

/** One opening of a list by one person, or on one browser. */
export interface SeenList {
  readonly list: ListName
  readonly at: Date
}

/**
 * Does who has opened these lists of a panel know too much to taste there, and since when?
 *
 *     serving list: yes. It says which codes of all seats are poured from one jug, so that two tasters' trays can be laid
 *     beside each other, and with one trial recognised, or a hidden duplicate, more than one code is known.
 *     filling list alone: no. It ends at the letter on the jug, and no letter ever comes to a taster. The door still asks
 *     each taster to say that they have not seen which drink is in which jug.
 *
 * @param openings  of one panel, by one person or on one browser, in any order
 * @returns         why, and the moment from which it was so: what was scored before that was scored blind. null: nothing
 *                  stands against it
 *
 * Source   our own rule
 * Checked  test/unit/panel/who-may-taste.test.ts
 * Limits   Knows what was opened here, not what somebody read over a shoulder or on a printed sheet.
 */
export function knowsTooMuch(openings: readonly SeenList[]): { readonly why: TooMuch; readonly since: Date } | null {
  const serving = openings.filter(({ list }) => list === 'serving').map(({ at }) => at.getTime())
  if (serving.length === 0) return null
  const both = openings.some(({ list }) => list === 'filling')
  return { why: both ? 'opened-both-lists' : 'opened-serving-list', since: new Date(Math.min(...serving)) }
}

/**
 * Who must not taste at this panel any more?
 *
 * @param openings  of one panel, by anybody
 * @returns         each user once, in the order of their first opening
 *
 * Checked  test/unit/panel/who-may-taste.test.ts
 */
export function whoKnowsTooMuch(
  openings: readonly (SeenList & { readonly userId: string })[],
): readonly { readonly userId: string; readonly why: TooMuch }[] {
  const users = [...new Set(openings.map(({ userId }) => userId))]
  return users.flatMap((userId) => {
    const known = knowsTooMuch(openings.filter((one) => one.userId === userId))
    return known ? [{ userId, why: known.why }] : []
  })
}

/** Why a seat takes nothing more from the phone that holds it. */
export type SeatGone = 'on-paper' | 'knows-too-much' | 'set-aside'

/** Is this seat shut to its phone? One that was set aside after closing is not: its taster has long gone home. */
export function seatGone(seat: {
  readonly onPaper: boolean
  readonly barredAt: Date | null
  readonly setAsideAt: Date | null
  readonly panel: { readonly closedAt: Date | null }
}): SeatGone | null {
  if (seat.barredAt !== null) return 'knows-too-much'
  if (findSetAside(seat.setAsideAt, seat.panel.closedAt) === 'before-closing') return 'set-aside'
  return seat.onPaper ? 'on-paper' : null
}

/**
 * Was this answer given blind?
 *
 * @param barredAt  the moment from which the seat's taster knew too much; null: never
 */
export function givenBlind(at: Date, barredAt: Date | null): boolean {
  return barredAt === null || at.getTime() < barredAt.getTime()
}
