import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { browserHash } from '@/lib/auth/seat-token'
import { inTransaction } from '@/lib/db/engine/transaction'
import { moveSeatTo, releaseBrowser } from '@/lib/db/seats'
import type { TooMuch } from '@/lib/panel/who-may-taste'
import { findDoor, standAt, type JoinStand } from './read-join'
import { noteTaster } from './taster-diary'
import { tooMuchOf, type Knower } from './too-much'
import type { World } from '../world'

export type ContinueRefusal =
  'not-there' | 'not-begun' | TooMuch | Exclude<JoinStand, 'form' | 'begun-elsewhere' | 'holds-this-seat'>

const NOTED_ONCE_MS = 60_000

/** Goes on with a begun seat on this browser, by its printed card. The browser that had it is told at its next contact. */
export async function continueSeat(
  world: World,
  cardToken: string,
  by: Knower & { readonly browser: string },
): Promise<Result<{ readonly seat: number }, ContinueRefusal>> {
  return inTransaction(world, async (tx) => {
    const place = await findDoor(tx, { kind: 'card', token: cardToken })
    if (!place?.seat) return no('not-there')
    const { panel, seat } = place

    const { stand } = await standAt(tx, place, by.browser)
    if (stand === 'holds-this-seat') return ok({ seat: seat.number })
    if (stand === 'form') return no('not-begun')
    if (stand !== 'begun-elsewhere') return no(stand)
    const known = await tooMuchOf(tx, panel, by)
    if (known) return no(known.why)

    const at = world.now()
    const hash = browserHash(by.browser)
    await releaseBrowser(tx, hash)
    await moveSeatTo(tx, seat.id, { hash, at, memberId: by.userId })
    // A card that goes to and fro between two phones fills no diary.
    if (seat.movedAt && at.getTime() - seat.movedAt.getTime() < NOTED_ONCE_MS) return ok({ seat: seat.number })
    await noteTaster(world, tx, {
      cafeId: panel.cafeId,
      at,
      act: 'seat-moved',
      subjectKind: 'seat',
      subjectId: seat.id,
      detail: { seat: seat.number },
    })
    return ok({ seat: seat.number })
  })
}
