import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { findPaperSeat, setOnPaper } from '@/lib/db/paper'
import { noteAct, type Actor, type World } from './world'

/** From here on this seat's scores come from a sheet of paper; no phone is given the seat. */
export async function putSeatOnPaper(
  world: World,
  actor: Actor,
  panelId: string,
  seat: number,
): Promise<Result<null, 'no-such-seat'>> {
  return world.db.$transaction(async (tx) => {
    const found = await findPaperSeat(tx, actor.cafeId, panelId, seat)
    if (!found) return no('no-such-seat')
    if (found.onPaper) return ok(null)
    await setOnPaper(tx, found.id, world.now())
    await noteAct(world, tx, actor, {
      act: 'seat-on-paper',
      subjectKind: 'panel',
      subjectId: panelId,
      detail: { seat },
    })
    return ok(null)
  })
}
