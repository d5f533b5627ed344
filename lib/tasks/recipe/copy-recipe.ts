import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { addCostLevel, findCostLevels } from '@/lib/db/cost-levels'
import type { Tx } from '@/lib/db/engine/client'
import { inTransaction } from '@/lib/db/engine/transaction'
import { addRecipe, findRecipe, findRecipeByName } from '@/lib/db/recipes'
import { findTrials } from '@/lib/db/trials'
import type { RecipeCopy } from '@/lib/forms/recipe-form'
import { copyTrial } from '../trial/branch-trial'
import { noteAct, type Actor, type World } from '../world'

/**
 * Starts a recipe from another: its note, its money and its cost levels, and the chosen trials as drafts, each with the
 * parent it had where that is chosen too. Panels, decisions and notes stay with the first.
 *
 * @returns the new recipe's id
 */
export async function copyRecipe(
  world: World,
  actor: Actor,
  recipeId: string,
  sent: RecipeCopy,
): Promise<Result<string, 'gone' | 'name-taken' | 'trial-gone'>> {
  return inTransaction(world, async (tx) => {
    const from = await findRecipe(tx, actor.cafeId, recipeId)
    if (!from) return no('gone')
    if (await findRecipeByName(tx, actor.cafeId, sent.name)) return no('name-taken')
    const trials = await findTrials(tx, actor.cafeId, recipeId)
    const wanted = trials.filter((trial) => sent.trials.includes(trial.id))
    if (wanted.length !== new Set(sent.trials).size) return no('trial-gone')
    const id = world.id()
    const { archivedAt: _archived, ...kept } = from
    await addRecipe(tx, { ...kept, id, name: sent.name, copiedFromId: from.id, createdAt: world.now() })
    const levels = await copyLevels(world, tx, actor, { from: recipeId, to: id })
    const copies = new Map<string, string>()
    for (const trial of wanted) {
      const parentId = trial.parentId === null ? null : (copies.get(trial.parentId) ?? null)
      copies.set(
        trial.id,
        await copyTrial(world, tx, actor, trial, { name: trial.name, into: { recipeId: id, parentId, levels } }),
      )
    }
    await noteAct(world, tx, actor, {
      act: 'recipe-copied',
      subjectKind: 'recipe',
      subjectId: id,
      detail: { name: sent.name, from: from.name, trials: wanted.length },
    })
    return ok(id)
  })
}

/** @returns the new level of each old one, by id */
async function copyLevels(world: World, tx: Tx, actor: Actor, { from, to }: { from: string; to: string }) {
  const levels = new Map<string, string>()
  for (const { id, name } of await findCostLevels(tx, actor.cafeId, from)) {
    const copy = world.id()
    await addCostLevel(tx, { id: copy, cafeId: actor.cafeId, recipeId: to, name })
    levels.set(id, copy)
  }
  return levels
}
