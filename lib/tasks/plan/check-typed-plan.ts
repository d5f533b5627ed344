import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import type { Tx } from '@/lib/db/engine/client'
import { findHouseRecipe } from '@/lib/db/house-recipe'
import { findPlanBasis, type AttributeColumns, type CupColumns, type PlanColumns } from '@/lib/db/panels'
import type { PlanTyped } from '@/lib/forms/panel-form'
import { roomOfDesign } from '@/lib/panel/kinds/kinds'
import { checkPlan, overallLiking, type PlanProblem, type PlannedCup } from '@/lib/panel/plan'
import { columnsOf, likingQuestion } from '@/lib/panel/question'
import { fieldOfLook, lookAtCups, refuseLook, type CupLook } from './look-at-cups'
import type { World } from '../world'

export type TypedRefusal = PlanProblem | CupLook['problem'] | 'trial-gone' | 'recipe-gone'

interface Basis {
  readonly houseTrialId: string | null
  readonly isDemo: boolean
}

/** Looks at a typed plan again, now with what only the database knows. The reason's detail names the field. */
export async function checkTyped(
  world: World,
  tx: Tx,
  cafeId: string,
  recipeId: string,
  typed: PlanTyped,
): Promise<Result<Basis, TypedRefusal>> {
  const basis = await findPlanBasis(tx, cafeId, recipeId)
  if (!basis) return no('recipe-gone', { field: '' })
  const houseTrialId = (await findHouseRecipe(tx, cafeId, recipeId))?.trialId ?? null

  const there = new Set(basis.trials.map((trial) => trial.id))
  if (plannedCups(typed, houseTrialId).some((cup) => !there.has(cup.trialId)))
    return no('trial-gone', { field: 'cups' })
  const [found] = checkPlan({
    ...typed,
    cups: plannedCups(typed, houseTrialId),
    pair: [typed.pairA, typed.pairB],
  })
  if (found) return no(found.problem, { field: found.field })

  const [look] = await lookAtCups(tx, cafeId, world.now(), { trialIds: typed.cups, publicTitle: typed.publicTitle })
  if (look) return refuseLook(look, { field: fieldOfLook[look.problem] })
  return ok({ houseTrialId, isDemo: basis.isDemo })
}

function plannedCups(typed: PlanTyped, houseTrialId: string | null): readonly PlannedCup[] {
  const cup = (isDuplicate: boolean) => (trialId: string) => ({
    trialId,
    isHouse: trialId === houseTrialId,
    isDuplicate,
  })
  return [...typed.cups.map(cup(false)), ...(typed.duplicate ? [cup(true)(typed.duplicate)] : [])]
}

export function planColumns(typed: PlanTyped): PlanColumns {
  const isPair = typed.primaryKind === 'one-pair'
  return {
    title: typed.title,
    publicTitle: typed.publicTitle,
    question: typed.question,
    ...kindColumns(typed),
    aim: typed.aim,
    primaryKind: typed.primaryKind,
    primaryTrialAId: isPair ? typed.pairA : null,
    primaryTrialBId: isPair ? typed.pairB : null,
    smallestDifference: typed.smallestDifference,
    notWorseMargin: typed.notWorseMargin,
    seatCount: typed.seatCount,
    cupsPerTaster: typed.cupsPerTaster,
    sampleMl: typed.sampleMl,
    seenThrough: typed.seenThrough,
    nothingSeen: typed.nothingSeen,
  }
}

function kindColumns({ asks }: PlanTyped): Pick<PlanColumns, 'kind' | 'design'> {
  if (!asks) return { kind: 'liking', design: null }
  const { kind, ...design } = asks
  return { kind, design: JSON.stringify(design) }
}

/** What is asked, the question that decides first. */
function questionsOf({ asks, aspects }: PlanTyped): readonly Omit<AttributeColumns, 'id'>[] {
  if (asks) return [{ ...roomOfDesign(asks).question(asks), about: 'set' }]
  return [likingQuestion(overallLiking), ...aspects].map((asked) => ({ ...columnsOf(asked), about: 'serving' }))
}

export function cupsAndAttributes(
  world: World,
  typed: PlanTyped,
  houseTrialId: string | null,
): { readonly cups: readonly CupColumns[]; readonly attributes: readonly AttributeColumns[] } {
  return {
    cups: plannedCups(typed, houseTrialId).map((cup) => ({ ...cup, id: world.id() })),
    attributes: questionsOf(typed).map((asked) => ({ ...asked, id: world.id() })),
  }
}
