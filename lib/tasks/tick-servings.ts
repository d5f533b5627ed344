import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { setPoured } from '@/lib/db/trays'
import { noteAct, type Actor, type World } from './world'

/** Ticks servings of a tray off on the serving list, or takes the ticks back. */
export async function tickServings(
  world: World,
  actor: Actor,
  panelId: string,
  servingIds: readonly string[],
  poured: boolean,
): Promise<Result<null, 'not-open'>> {
  return world.db.$transaction(async (tx) => {
    const seats = new Set<number>()
    for (const servingId of servingIds) {
      const seat = await setPoured(tx, actor.cafeId, panelId, servingId, poured ? world.now() : null)
      if (seat === null) return no('not-open')
      seats.add(seat)
    }
    await noteAct(world, tx, actor, {
      act: poured ? 'servings-poured' : 'servings-unticked',
      subjectKind: 'panel',
      subjectId: panelId,
      detail: { seats: [...seats].join(', '), servings: servingIds.length },
    })
    return ok(null)
  })
}
