import 'server-only'
import { ok, type Result } from '@/lib/base/result'
import { requireSeat, type SeatRefusal } from '@/lib/auth/seat-token'
import { findServingsOfSeat, listAttributes } from '@/lib/db/scores'
import { findPublicTitle } from '@/lib/db/seats'
import { findSetsOfSeat } from '@/lib/db/sets'
import { readSetAnswer } from '@/lib/panel/kinds/set-kind'
import { servingsForPhone, setsForPhone, type SeatState } from '@/lib/panel/blind'
import { LIKING_WORDS } from '@/lib/panel/liking'
import { seatGone } from '@/lib/panel/who-may-taste'
import { ownAsks } from './own-asks'
import type { World } from '../world'

/** Everything this browser's seat may know, and nothing else. */
export async function readSeatState(world: World, browser: string | null): Promise<Result<SeatState, SeatRefusal>> {
  const held = await requireSeat(world.db, browser)
  if (!held.ok) return held
  const seat = held.value
  const attributes = await listAttributes(world.db, seat.cafeId, seat.panelId)
  const gone = seatGone(seat)
  const ofCup = attributes.filter(({ about }) => about === 'serving').length
  const ofSet = attributes.length - ofCup

  return ok({
    sitting: seat.sitting,
    seat: seat.number,
    title: await findPublicTitle(world.db, seat.panelId),
    open: seat.panel.stage === 'open',
    gone,
    attributes: attributes.map(({ name }) => name),
    asks: ownAsks(seat.id, attributes),
    scale: LIKING_WORDS,
    cups: gone ? [] : servingsForPhone(await findServingsOfSeat(world.db, seat), ofCup, seat.movedAt),
    ...(ofSet > 0 && { sets: gone ? [] : setsForPhone(await findSetsOfSeat(world.db, seat, readSetAnswer), ofSet) }),
  })
}
