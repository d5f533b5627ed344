import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import { addCupsAndAttributes, dropCupsAndAttributes, findPanel, setPlan } from '@/lib/db/panels'
import type { PlanTyped } from '@/lib/forms/panel-form'
import { checkTyped, cupsAndAttributes, planColumns, type TypedRefusal } from './check-typed-plan'
import { isStale, planMark, type OpenedWith } from '../opened-with'
import { noteAct, type Actor, type World } from '../world'

/** Rewrites a draft. Once the panel is open its plan stands. */
export async function changePlan(
  world: World,
  actor: Actor,
  panelId: string,
  typed: PlanTyped,
  opened: OpenedWith | null,
): Promise<Result<null, TypedRefusal | 'not-a-draft' | 'saved-elsewhere'>> {
  return inTransaction(world, async (tx) => {
    const panel = await findPanel(tx, actor.cafeId, panelId)
    if (!panel || panel.stage !== 'draft') return no('not-a-draft', { field: '' })
    if (isStale(opened, planMark(panel))) return no('saved-elsewhere')
    const checked = await checkTyped(world, tx, actor.cafeId, panel.recipe.id, typed)
    if (!checked.ok) return checked

    if (!(await setPlan(tx, actor.cafeId, panelId, planColumns(typed)))) return no('not-a-draft', { field: '' })
    await dropCupsAndAttributes(tx, actor.cafeId, panelId)
    const { cups, attributes } = cupsAndAttributes(world, typed, checked.value.houseTrialId)
    await addCupsAndAttributes(tx, actor.cafeId, panelId, cups, attributes)
    await noteAct(world, tx, actor, {
      act: 'plan-changed',
      subjectKind: 'panel',
      subjectId: panelId,
      detail: { cups: cups.length, seats: typed.seatCount },
    })
    return ok(null)
  })
}
