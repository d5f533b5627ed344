import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { findHouseRecipe } from '@/lib/db/house-recipe'
import { addCupsAndAttributes, addPanel, findPanel } from '@/lib/db/panels'
import { findStage, isUnblinded } from '@/lib/panel/plan'
import { noteAct, type Actor, type World } from './world'

/** "Test again": a new draft with the plan of a panel that is over. Codes, letters and orders are dealt anew at opening. */
export async function copyPanel(
  world: World,
  actor: Actor,
  panelId: string,
): Promise<Result<string, 'not-found' | 'not-over'>> {
  return world.db.$transaction(async (tx) => {
    const panel = await findPanel(tx, actor.cafeId, panelId)
    if (!panel) return no('not-found')
    const stage = findStage(panel.stage)
    if (stage === null || !isUnblinded(stage)) return no('not-over')

    const houseTrialId = (await findHouseRecipe(tx, actor.cafeId, panel.recipe.id))?.trialId ?? null
    const id = world.id()
    const { title, publicTitle, question, primaryKind, primaryTrialAId, primaryTrialBId } = panel
    const { smallestDifference, notWorseMargin, seatCount, sampleMl, seenThrough, isDemo } = panel
    await addPanel(tx, {
      id,
      cafeId: actor.cafeId,
      recipeId: panel.recipe.id,
      joinToken: world.token(),
      copiedFromId: panelId,
      createdAt: world.now(),
      createdById: actor.userId,
      title: `${title.replace(/, again$/, '')}, again`,
      ...{ publicTitle, question, primaryKind, primaryTrialAId, primaryTrialBId },
      ...{ smallestDifference, notWorseMargin, seatCount, sampleMl, seenThrough, isDemo },
    })
    const cups = panel.cups.map(({ trialId, isDuplicate }) => ({
      id: world.id(),
      trialId,
      isDuplicate,
      isHouse: trialId === houseTrialId,
    }))
    const attributes = panel.attributes.map(({ name }) => ({ id: world.id(), name }))
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
