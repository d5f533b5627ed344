import 'server-only'
import { ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import { addCupsAndAttributes, addPanel } from '@/lib/db/panels'
import type { PlanTyped } from '@/lib/forms/panel-form'
import { checkTyped, cupsAndAttributes, planColumns, type TypedRefusal } from './check-typed-plan'
import { noteAct, type Actor, type World } from '../world'

/** Writes down what a panel is to find out, before anything is poured. @returns the new panel's id */
export async function planPanel(
  world: World,
  actor: Actor,
  recipeId: string,
  typed: PlanTyped,
): Promise<Result<string, TypedRefusal | 'recipe-gone'>> {
  return inTransaction(world, async (tx) => {
    const checked = await checkTyped(world, tx, actor.cafeId, recipeId, typed)
    if (!checked.ok) return checked
    const id = world.id()
    await addPanel(tx, {
      ...planColumns(typed),
      id,
      cafeId: actor.cafeId,
      recipeId,
      joinToken: world.token(),
      copiedFromId: null,
      isDemo: checked.value.isDemo,
      createdAt: world.now(),
      createdById: actor.userId,
    })
    const { cups, attributes } = cupsAndAttributes(world, typed, checked.value.houseTrialId)
    await addCupsAndAttributes(tx, actor.cafeId, id, cups, attributes)
    await noteAct(world, tx, actor, {
      act: 'panel-planned',
      subjectKind: 'panel',
      subjectId: id,
      detail: { cups: cups.length, seats: typed.seatCount },
    })
    return ok(id)
  })
}
