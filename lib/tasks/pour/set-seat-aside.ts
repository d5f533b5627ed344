import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import { changeSetAside, findSeatToSetAside } from '@/lib/db/seats'
import { findSetAside, momentAside } from '@/lib/panel/set-aside'
import { noteAct, type Actor, type World } from '../world'

export type AsideRefusal = 'no-such-seat' | 'not-taken' | 'set-aside-already'
export type BackInRefusal = 'no-such-seat' | 'not-set-aside' | 'set-aside-blind'

/**
 * Sets a seat aside, for a reason in words that stands beside it from then on. While the panel is open no further score of it
 * is taken, and nobody else is given it. Whether its scores carry a claim goes by when it was done: see `findSetAside`.
 */
export async function setSeatAside(
  world: World,
  actor: Actor,
  panelId: string,
  number: number,
  why: string,
): Promise<Result<null, AsideRefusal>> {
  return inTransaction(world, async (tx) => {
    const seat = await findSeatToSetAside(tx, actor.cafeId, panelId, number)
    if (!seat) return no('no-such-seat')
    if (seat.takenAt === null) return no('not-taken')
    if (seat.setAsideAt !== null) return no('set-aside-already')
    const at = momentAside(world.now(), seat.panel.closedAt)
    await changeSetAside(tx, seat.id, { at, byId: actor.userId, why })
    await noteAct(world, tx, actor, {
      act: 'seat-set-aside',
      subjectKind: 'seat',
      subjectId: seat.id,
      detail: { seat: number, why, when: seat.panel.closedAt === null ? 'before closing' : 'after closing' },
    })
    return ok(null)
  })
}

/**
 * Takes a seat back in. One that was set aside before closing stays so once scores can be read: whether it carries the
 * claim must not be chosen after looking, and the reading with it stands beside.
 */
export async function takeSeatBackIn(
  world: World,
  actor: Actor,
  panelId: string,
  number: number,
): Promise<Result<null, BackInRefusal>> {
  return inTransaction(world, async (tx) => {
    const seat = await findSeatToSetAside(tx, actor.cafeId, panelId, number)
    if (!seat) return no('no-such-seat')
    const { closedAt } = seat.panel
    const aside = findSetAside(seat.setAsideAt, closedAt)
    if (aside === null) return no('not-set-aside')
    if (aside === 'before-closing' && closedAt !== null) return no('set-aside-blind')
    await changeSetAside(tx, seat.id, null)
    await noteAct(world, tx, actor, {
      act: 'seat-taken-back-in',
      subjectKind: 'seat',
      subjectId: seat.id,
      detail: { seat: number },
    })
    return ok(null)
  })
}
