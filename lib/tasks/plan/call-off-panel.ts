import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import { findPanel, setCalledOff } from '@/lib/db/panels'
import { noteAct, type Actor, type World } from '../world'

/**
 * Takes back an open panel that nobody has tasted. Its codes and trays are void; its trials stay frozen, because somebody
 * may have poured them.
 */
export async function callOffPanel(
  world: World,
  actor: Actor,
  panelId: string,
): Promise<Result<null, 'not-open' | 'tasted'>> {
  return inTransaction(world, async (tx) => {
    const calledOff = { calledOffAt: world.now(), calledOffById: actor.userId }
    if (!(await setCalledOff(tx, actor.cafeId, panelId, calledOff))) {
      const panel = await findPanel(tx, actor.cafeId, panelId)
      return no(panel?.stage === 'open' ? 'tasted' : 'not-open')
    }
    await noteAct(world, tx, actor, { act: 'panel-called-off', subjectKind: 'panel', subjectId: panelId })
    return ok(null)
  })
}
