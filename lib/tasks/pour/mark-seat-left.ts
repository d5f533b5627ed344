import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import { setLeft } from '@/lib/db/paper'
import { noteAct, type Actor, type World } from '../world'

/** Notes that a seat's taster has gone. What was scored counts; nobody else is ever given the seat. */
export async function markSeatLeft(
  world: World,
  actor: Actor,
  panelId: string,
  seat: number,
): Promise<Result<null, 'not-open'>> {
  return inTransaction(world, async (tx) => {
    if (!(await setLeft(tx, actor.cafeId, panelId, seat, world.now()))) return no('not-open')
    await noteAct(world, tx, actor, { act: 'seat-left', subjectKind: 'panel', subjectId: panelId, detail: { seat } })
    return ok(null)
  })
}
