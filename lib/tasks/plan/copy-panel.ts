import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import { findHouseRecipe } from '@/lib/db/house-recipe'
import { addCupsAndAttributes, addPanel, findCopyInDraft, findPanel } from '@/lib/db/panels'
import { isOver } from '@/lib/panel/plan'
import { againTitle } from '@/lib/panel/title'
import { planOf } from './plan-of'
import { noteAct, type Actor, type World } from '../world'

/**
 * "Test again": a draft with the plan of a panel that is over, one however often it is asked for. Codes, letters and
 * orders are dealt anew at opening, and what can be seen is looked at anew: other cups will stand there.
 */
export async function copyPanel(
  world: World,
  actor: Actor,
  panelId: string,
): Promise<Result<string, 'not-found' | 'not-over'>> {
  return inTransaction(world, async (tx) => {
    const panel = await findPanel(tx, actor.cafeId, panelId)
    if (!panel) return no('not-found')
    if (!isOver(panel.stage)) return no('not-over')
    const waiting = await findCopyInDraft(tx, actor.cafeId, panelId)
    if (waiting !== null) return ok(waiting)

    const houseTrialId = (await findHouseRecipe(tx, actor.cafeId, panel.recipe.id))?.trialId ?? null
    const id = world.id()
    const { publicTitle, question, kind, design, primaryKind, primaryTrialAId, primaryTrialBId } = panel
    const { smallestDifference, notWorseMargin, seatCount, cupsPerTaster, sampleMl, seenThrough, isDemo } = panel
    await addPanel(tx, {
      id,
      cafeId: actor.cafeId,
      recipeId: panel.recipe.id,
      joinToken: world.token(),
      copiedFromId: panelId,
      createdAt: world.now(),
      createdById: actor.userId,
      title: againTitle(panel.title),
      aim: planOf(panel, houseTrialId).aim,
      nothingSeen: false,
      ...{ publicTitle, question, kind, design, primaryKind, primaryTrialAId, primaryTrialBId },
      ...{ smallestDifference, notWorseMargin, seatCount, cupsPerTaster, sampleMl, seenThrough, isDemo },
    })
    const cups = panel.cups.map(({ trialId, isDuplicate }) => ({
      id: world.id(),
      trialId,
      isDuplicate,
      isHouse: trialId === houseTrialId,
    }))
    const attributes = panel.attributes.map(({ id: _, position: __, ...asked }) => ({ ...asked, id: world.id() }))
    await addCupsAndAttributes(tx, actor.cafeId, id, cups, attributes)
    await noteAct(world, tx, actor, {
      act: 'panel-copied',
      subjectKind: 'panel',
      subjectId: id,
      detail: { from: panelId },
    })
    return ok(id)
  })
}
