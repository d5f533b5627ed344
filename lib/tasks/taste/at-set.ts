import 'server-only'
import { no, type Result } from '@/lib/base/result'
import { requireSeat, type SeatRefusal, type Sitting } from '@/lib/auth/seat-token'
import { inTransaction } from '@/lib/db/engine/transaction'
import type { Tx } from '@/lib/db/engine/client'
import { findSetByNumber, type PhoneSet } from '@/lib/db/sets'
import { seatGone, type SeatGone } from '@/lib/panel/who-may-taste'
import { noteTaster } from './taster-diary'
import type { World } from '../world'

/** Which set a message is about, and in whose turn at the seat it was written. */
export type AtSet = { readonly sitting: string; readonly set: number }

export type SetRefusal = SeatRefusal | SeatGone | 'another-sitting' | 'not-your-set'

export type SetScene = {
  readonly tx: Tx
  readonly at: Date
  readonly seat: Sitting
  readonly set: PhoneSet
  readonly closed: boolean
  /** why nothing new is taken here though the panel is open; what was taken before is still acknowledged */
  readonly gone: SeatGone | null
  /** a line in the diary about this set; never what was answered */
  note(act: string, detail?: Readonly<Record<string, string | number>>): Promise<void>
}

/** Opens the one short transaction in which a phone may touch one of its sets, as `atServing` does for a cup. */
export async function atSet<Value, Reason extends string>(
  world: World,
  browser: string | null,
  where: AtSet,
  act: (scene: SetScene) => Promise<Result<Value, Reason>>,
): Promise<Result<Value, Reason | SetRefusal>> {
  return inTransaction(world, async (tx): Promise<Result<Value, Reason | SetRefusal>> => {
    const held = await requireSeat(tx, browser)
    if (!held.ok) return held
    const seat = held.value
    if (seat.sitting !== where.sitting) return no('another-sitting')
    const set = await findSetByNumber(tx, seat, where.set)
    if (!set) return no('not-your-set')
    const at = world.now()
    const about = { cafeId: seat.cafeId, at, subjectKind: 'set', subjectId: set.id }
    return act({
      ...{ tx, at, seat, set },
      closed: seat.panel.stage !== 'open',
      gone: seatGone(seat),
      note: (what, detail) => noteTaster(world, tx, { ...about, act: what, ...(detail && { detail }) }),
    })
  })
}
