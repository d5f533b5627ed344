import 'server-only'
import { createHash } from 'node:crypto'
import { no, ok, type Result } from '@/lib/base/result'
import type { Db, Tx } from '@/lib/db/engine/client'
import { findHeldSeat, wasPassedOn, type HeldSeat } from '@/lib/db/seats'

/** What is kept of a browser's token: enough to know it again, nothing to enter with. */
export function browserHash(token: string): string {
  return createHash('sha256').update(token).digest('hex')
}

/** A name for one browser's turn at one seat. It goes to the phone, so it tells nothing and opens nothing. */
function sittingOf(token: string, seat: HeldSeat): string {
  const since = seat.browserSince?.getTime() ?? 0
  return createHash('sha256').update(`sitting ${token} ${seat.id} ${since}`).digest('base64url').slice(0, 22)
}

export type SeatRefusal = 'no-seat' | 'seat-moved' | 'phone-passed-on'
export type Sitting = HeldSeat & { readonly sitting: string }

/**
 * The seat that this browser holds. A browser is given its token with a seat and never before, so a token that
 * nobody knows any more once held a seat that has moved.
 *
 * @param token  from the seat cookie; null when there is none
 */
export async function requireSeat(db: Db | Tx, token: string | null): Promise<Result<Sitting, SeatRefusal>> {
  if (token === null) return no('no-seat')
  const hash = browserHash(token)
  const seat = await findHeldSeat(db, hash)
  if (seat) return ok({ ...seat, sitting: sittingOf(token, seat) })
  return no((await wasPassedOn(db, hash)) ? 'phone-passed-on' : 'seat-moved')
}
