import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import { addCostLevel, findCostLevel, setAlternatives, setTastedLevel } from '@/lib/db/cost-levels'
import { findRecipe } from '@/lib/db/recipes'
import { findTrial } from '@/lib/db/trials'
import { settleLevels } from '../trial/freeze-trial'
import { levelOfItsDay } from '../trial/frozen-build'
import { alternativesMark, isStale, type OpenedWith } from '../opened-with'
import { readStore } from '../store/reach-store'
import { namedBy } from '../store/store-part'
import { noteAct, type Actor, type World } from '../world'

/** Names a further level of a recipe ("economy"), as the café calls it. */
export async function nameCostLevel(
  world: World,
  actor: Actor,
  recipeId: string,
  name: string,
): Promise<Result<string, 'gone' | 'name-taken'>> {
  return inTransaction(world, async (tx) => {
    if (!(await findRecipe(tx, actor.cafeId, recipeId))) return no('gone')
    const id = world.id()
    if (!(await addCostLevel(tx, { id, cafeId: actor.cafeId, recipeId, name }))) return no('name-taken')
    await noteAct(world, tx, actor, {
      act: 'cost-level-named',
      subjectKind: 'recipe',
      subjectId: recipeId,
      detail: { name },
    })
    return ok(id)
  })
}

/**
 * Says what a level uses instead on each line of a trial. A trial that was poured at this level stays as it was.
 */
export async function chooseAlternatives(
  world: World,
  actor: Actor,
  trialId: string,
  costLevelId: string,
  lines: readonly { readonly id: string; readonly part?: string | undefined }[],
  opened: OpenedWith | null,
): Promise<Result<null, 'gone' | 'poured' | 'saved-elsewhere'>> {
  return inTransaction(world, async (tx) => {
    const trial = await findTrial(tx, actor.cafeId, trialId)
    const level = await findCostLevel(tx, actor.cafeId, costLevelId)
    if (!trial || !level || level.recipeId !== trial.recipeId) return no('gone')
    if (levelOfItsDay(trial) === level.name) return no('poured')
    if (isStale(opened, alternativesMark(trial, costLevelId))) return no('saved-elsewhere')
    const own = new Set(trial.lines.map((line) => line.id))
    // What a form sends is believed only as far as this café's own store knows it.
    const store = await readStore(
      tx,
      actor.cafeId,
      world.now(),
      lines.map(({ part }) => part),
    )
    const { cafeId } = actor
    const rows = lines.flatMap(({ id: lineId, part }) => {
      if (!part || !own.has(lineId) || !store.has(part)) return []
      return [{ id: world.id(), cafeId, lineId, costLevelId, ...namedBy(part) }]
    })
    await setAlternatives(tx, { cafeId, trialId, costLevelId }, rows)
    await settleLevels(tx, world, actor.cafeId, trialId)
    await noteAct(world, tx, actor, {
      act: 'alternatives-chosen',
      subjectKind: 'trial',
      subjectId: trialId,
      detail: { level: level.name },
    })
    return ok(null)
  })
}

/** Marks the level a trial was really made and tasted at: what the level uses was in the glass. */
export async function markTasted(
  world: World,
  actor: Actor,
  trialId: string,
  costLevelId: string,
): Promise<Result<null, 'gone' | 'poured'>> {
  return inTransaction(world, async (tx) => {
    const trial = await findTrial(tx, actor.cafeId, trialId)
    const level = await findCostLevel(tx, actor.cafeId, costLevelId)
    if (!trial || !level || level.recipeId !== trial.recipeId) return no('gone')
    if (levelOfItsDay(trial) !== null) return no('poured')
    await setTastedLevel(tx, actor.cafeId, trialId, costLevelId)
    await settleLevels(tx, world, actor.cafeId, trialId)
    await noteAct(world, tx, actor, {
      act: 'tasted-level-marked',
      subjectKind: 'trial',
      subjectId: trialId,
      detail: { level: level.name },
    })
    return ok(null)
  })
}
