import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { browserHash } from '@/lib/auth/seat-token'
import { inTransaction } from '@/lib/db/engine/transaction'
import type { Tx } from '@/lib/db/engine/client'
import { findPanel } from '@/lib/db/panels'
import { findSeatsOf, setSeatMember, type MemberSeat } from '@/lib/db/seats'
import { addOpening } from '@/lib/db/trays'
import type { ListName } from '@/lib/panel/pouring-list'
import { barSeat, tooMuchOf } from '../taste/too-much'
import { noteAct, type Actor, type World } from '../world'

/** Where the list is opened: the browser's own seat token, if it holds a seat; and whether its taster was asked and said yes. */
export interface OpenedOn {
  readonly browser: string | null
  readonly agreed: boolean
}

const elsewhere: OpenedOn = { browser: null, agreed: false }

/**
 * Records that somebody opens a list, each time anew. Who still tastes at this panel is asked first; whoever knows too
 * much from then on has their seat closed to scoring in the same transaction.
 * @returns the opening's id: it shows the list to this member only
 */
export async function openList(
  world: World,
  actor: Actor,
  panelId: string,
  list: ListName,
  on: OpenedOn = elsewhere,
): Promise<Result<string, 'not-open' | 'holds-seat'>> {
  return inTransaction(world, async (tx) => {
    const panel = await findPanel(tx, actor.cafeId, panelId)
    if (panel?.stage !== 'open') return no('not-open')
    const seats = await seatsHeldBy(tx, actor, panelId, on.browser)
    if (!on.agreed && seats.some(stillTastes)) return no('holds-seat')

    const id = world.id()
    const at = world.now()
    await addOpening(tx, { id, cafeId: actor.cafeId, panelId, userId: actor.userId, list, at })
    await noteAct(world, tx, actor, {
      act: 'list-opened',
      subjectKind: 'panel',
      subjectId: panelId,
      detail: { list },
    })
    const known = await tooMuchOf(tx, { cafeId: actor.cafeId, id: panelId }, actor)
    for (const seat of seats) {
      if (seat.memberId === null) await setSeatMember(tx, seat.id, actor.userId)
      // Somebody else's seat on the browser that shows the list: what they said until now they said blind.
      const isTheirs = seat.memberId === null || seat.memberId === actor.userId
      if (known) await barSeat(world, tx, seat, isTheirs ? known : { ...known, since: at }, actor.userId)
    }
    return ok(id)
  })
}

/** Seats that opening a list would close while somebody still tastes there. */
export async function seatsAtStake(
  world: World,
  actor: Actor,
  panelId: string,
  browser: string | null,
): Promise<readonly number[]> {
  const seats = await seatsHeldBy(world.db, actor, panelId, browser)
  return seats.filter(stillTastes).map(({ number }) => number)
}

async function seatsHeldBy(db: Tx | World['db'], actor: Actor, panelId: string, browser: string | null) {
  const hash = browser === null ? null : browserHash(browser)
  return findSeatsOf(db, { cafeId: actor.cafeId, id: panelId }, actor.userId, hash)
}

function stillTastes({ barredAt, servings }: MemberSeat): boolean {
  return barredAt === null && servings.some(({ lockedAt, skippedAt }) => lockedAt === null && skippedAt === null)
}
