import 'server-only'
import { no, type Result } from '@/lib/base/result'
import { requireSeat, type SeatRefusal, type Sitting } from '@/lib/auth/seat-token'
import { inTransaction } from '@/lib/db/engine/transaction'
import type { Tx } from '@/lib/db/engine/client'
import { findServingByCode, type PhoneServing } from '@/lib/db/scores'
import { seatGone, type SeatGone } from '@/lib/panel/who-may-taste'
import type { World } from '../world'

/** Which cup a message is about, and in whose turn at the seat it was written. */
export type AtServing = { readonly sitting: string; readonly code: string }

export type ServingRefusal = SeatRefusal | SeatGone | 'another-sitting' | 'not-your-cup'

export type ServingScene = {
  readonly tx: Tx
  readonly at: Date
  readonly seat: Sitting
  readonly serving: PhoneServing
  readonly closed: boolean
  /** why nothing new is taken here though the panel is open; what was taken before is still acknowledged */
  readonly gone: SeatGone | null
}

/**
 * Opens the one short transaction in which a phone may touch one of its servings. What was written before the phone
 * changed hands is refused, so that no answer lands at a stranger's seat.
 */
export async function atServing<Value, Reason extends string>(
  world: World,
  browser: string | null,
  where: AtServing,
  act: (scene: ServingScene) => Promise<Result<Value, Reason>>,
): Promise<Result<Value, Reason | ServingRefusal>> {
  return inTransaction(world, async (tx): Promise<Result<Value, Reason | ServingRefusal>> => {
    const held = await requireSeat(tx, browser)
    if (!held.ok) return held
    const seat = held.value
    if (seat.sitting !== where.sitting) return no('another-sitting')
    const serving = await findServingByCode(tx, seat, where.code)
    if (!serving) return no('not-your-cup')
    return act({ tx, at: world.now(), seat, serving, closed: seat.panel.stage !== 'open', gone: seatGone(seat) })
  })
}
