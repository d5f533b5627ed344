import 'server-only'
import { browserHash } from '@/lib/auth/seat-token'
import { inTransaction } from '@/lib/db/engine/transaction'
import { findHeldSeat, setSeatMember } from '@/lib/db/seats'
import { barSeat, tooMuchOf } from './too-much'
import type { World } from '../world'

/**
 * The member signed in on a browser that holds a seat becomes known at that seat, and closes it to scoring if they know
 * too much already: whoever took a seat signed out and signs in later is the same person.
 */
export async function meetMember(world: World, browser: string, userId: string): Promise<void> {
  await inTransaction(world, async (tx) => {
    const seat = await findHeldSeat(tx, browserHash(browser))
    if (!seat || seat.panel.stage !== 'open' || seat.memberId === userId) return
    if (seat.memberId === null) await setSeatMember(tx, seat.id, userId)
    const known = await tooMuchOf(tx, { cafeId: seat.cafeId, id: seat.panelId }, { userId })
    if (known) await barSeat(world, tx, seat, known, userId)
  })
}
