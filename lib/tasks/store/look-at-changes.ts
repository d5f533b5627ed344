import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import { findIngredient } from '@/lib/db/ingredients'
import { setLookedAt } from '@/lib/db/upstream-changes'
import { noteAct, type Actor, type World } from '../world'

/**
 * Says that somebody looked at changes of an ingredient, those that the page showed: one that came meanwhile stays to be
 * looked at. Doing it again changes nothing.
 */
export async function lookAtChanges(
  world: World,
  actor: Actor,
  ingredientId: string,
  ids: readonly string[],
): Promise<Result<number, 'gone'>> {
  return inTransaction(world, async (tx) => {
    const ingredient = await findIngredient(tx, actor.cafeId, ingredientId)
    if (!ingredient) return no('gone')
    const looked = await setLookedAt(tx, { cafeId: actor.cafeId, ingredientId, ids }, world.now(), actor.userId)
    if (looked > 0)
      await noteAct(world, tx, actor, {
        act: 'changes-looked-at',
        subjectKind: 'ingredient',
        subjectId: ingredientId,
        detail: { changes: looked },
      })
    return ok(looked)
  })
}
