import 'server-only'
import { demand } from '@/lib/base/demand'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import type { Tx } from '@/lib/db/engine/client'
import { findPanel, setClosed } from '@/lib/db/panels'
import { findNames } from '@/lib/db/people'
import { findProgress } from '@/lib/db/progress'
import { keepClosingAnswer } from '@/lib/db/results'
import { settleSetAside } from '@/lib/db/seats'
import { answerPanel } from '../result/answer-panel'
import { findClosedServings, inHeadline } from '../result/closed-servings'
import { writeClosingAnswer } from '../result/closing-answer'
import { seatProgress } from './read-progress'
import { noteAct, type Actor, type World } from '../world'

/**
 * Closes a panel for good, unblinds it and keeps what its scores say, all in one transaction: what was found at closing stays
 * what was found, whatever the statistics of a later version say. Of two who close at once one does, and the other is told who did:
 * the reason's detail carries `by` and `at` (ISO 8601).
 */
export async function closePanel(
  world: World,
  actor: Actor,
  panelId: string,
): Promise<Result<null, 'not-found' | 'not-open' | 'closed-already'>> {
  return inTransaction(world, async (tx) => {
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
    await settleSetAside(tx, actor.cafeId, panelId, closedAt)
    await keepAnswer(tx, actor, panelId, closedAt)
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

async function keepAnswer(tx: Tx, actor: Actor, panelId: string, at: Date): Promise<void> {
  const panel = await findPanel(tx, actor.cafeId, panelId)
  demand(panel !== null, `a panel that was just closed must be there, got ${panelId}`)
  const servings = inHeadline(await findClosedServings(tx, actor.cafeId, panelId))
  await keepClosingAnswer(
    tx,
    actor.cafeId,
    panelId,
    writeClosingAnswer(() => answerPanel(panel, servings)),
    at,
  )
}
