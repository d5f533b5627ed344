import 'server-only'
import { ok, type Result } from '@/lib/base/result'
import { browserHash, requireSeat, type SeatRefusal } from '@/lib/auth/seat-token'
import { inTransaction } from '@/lib/db/engine/transaction'
import { findJoinToken, lockBegunServings, releaseBrowser } from '@/lib/db/seats'
import { noteTaster } from './taster-diary'
import type { World } from '../world'

/**
 * Lets another taster use this browser. The seat it held stays locked to what it has sent; the way back in for the
 * next taster is the panel's own code.
 */
export async function passPhoneOn(
  world: World,
  browser: string | null,
): Promise<Result<{ readonly joinToken: string; readonly seat: number }, SeatRefusal>> {
  return inTransaction(world, async (tx) => {
    const seat = await requireSeat(tx, browser)
    if (!seat.ok || browser === null) return seat.ok ? { ok: false, reason: 'no-seat' } : seat

    const at = world.now()
    if (seat.value.panel.stage === 'open') await lockBegunServings(tx, seat.value.id, at)
    await releaseBrowser(tx, browserHash(browser))
    await noteTaster(world, tx, {
      cafeId: seat.value.cafeId,
      at,
      act: 'phone-passed-on',
      subjectKind: 'seat',
      subjectId: seat.value.id,
      detail: { seat: seat.value.number },
    })
    return ok({ joinToken: await findJoinToken(tx, seat.value.panelId), seat: seat.value.number })
  })
}
