import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { findPanel, setClosed } from '@/lib/db/panels'
import { findNames } from '@/lib/db/people'
import { findProgress } from '@/lib/db/progress'
import { seatProgress } from './read-progress'
import { noteAct, type Actor, type World } from './world'

/**
 * Closes a panel for good and unblinds it. Of two who close at once one does, and the other is told who did:
 * the reason's detail carries `by` and `at` (ISO 8601).
 */
export async function closePanel(
  world: World,
  actor: Actor,
  panelId: string,
): Promise<Result<null, 'not-found' | 'not-open' | 'closed-already'>> {
  return world.db.$transaction(async (tx) => {
    const closedAt = world.now()
    if (!(await setClosed(tx, actor.cafeId, panelId, { closedAt, closedById: actor.userId }))) {
      const panel = await findPanel(tx, actor.cafeId, panelId)
      if (!panel) return no('not-found')
      if (!panel.closedAt) return no('not-open')
      const names = await findNames(tx, panel.closedById ? [panel.closedById] : [])
      return no('closed-already', {
        by: names.get(panel.closedById ?? '') ?? 'somebody',
        at: panel.closedAt.toISOString(),
      })
    }
    const progress = await findProgress(tx, actor.cafeId, panelId)
    const seats = progress ? seatProgress(progress) : []
    const finished = seats.filter((seat) => seat.state === 'finished').length
    const subject = { subjectKind: 'panel', subjectId: panelId }
    await noteAct(world, tx, actor, {
      ...subject,
      act: 'panel-closed',
      detail: { seats: seats.length, finished, unfinished: seats.filter((seat) => seat.state === 'tasting').length },
    })
    await noteAct(world, tx, actor, { ...subject, act: 'panel-unblinded' })
    return ok(null)
  })
}
