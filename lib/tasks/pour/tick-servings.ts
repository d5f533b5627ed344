import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import { findSeatsOfServings, setPoured } from '@/lib/db/trays'
import { noteAct, type Actor, type World } from '../world'

/** Ticks servings of a tray off on the serving list, or takes the ticks back. */
export async function tickServings(
  world: World,
  actor: Actor,
  panelId: string,
  servingIds: readonly string[],
  poured: boolean,
): Promise<Result<null, 'not-open'>> {
  return inTransaction(world, async (tx) => {
    const seats = await findSeatsOfServings(tx, actor.cafeId, panelId, servingIds)
    if (seats.length === 0 || seats.length < new Set(servingIds).size) return no('not-open')
    await setPoured(tx, actor.cafeId, servingIds, poured ? world.now() : null)
    await noteAct(world, tx, actor, {
      act: poured ? 'servings-poured' : 'servings-unticked',
      subjectKind: 'panel',
      subjectId: panelId,
      detail: { seats: [...new Set(seats)].join(', '), servings: servingIds.length },
    })
    return ok(null)
  })
}
