import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import { setOnPaper } from '@/lib/db/paper'
import { findPaperSheet } from './paper-sheet'
import { noteAct, type Actor, type World } from '../world'

export type PutRefusal = 'no-such-seat' | 'finished' | 'barred' | 'set-aside'

/**
 * From here on this seat's scores come from a sheet of paper; no phone is given the seat, and the one that had it is
 * told. What it has answered stays its own.
 */
export async function putSeatOnPaper(
  world: World,
  actor: Actor,
  panelId: string,
  seat: number,
): Promise<Result<null, PutRefusal>> {
  return inTransaction(world, async (tx) => {
    const found = await findPaperSheet(tx, actor.cafeId, panelId, seat)
    if (!found) return no('no-such-seat')
    if (found.barred) return no('barred')
    if (found.aside) return no('set-aside')
    if (found.onPaper) return ok(null)
    if (found.finished) return no('finished')
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
