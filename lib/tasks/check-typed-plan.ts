import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import type { Tx } from '@/lib/db/client'
import { findHouseRecipe } from '@/lib/db/house-recipe'
import { findPlanBasis, type AttributeColumns, type CupColumns, type PlanColumns } from '@/lib/db/panels'
import type { PlanTyped } from '@/lib/forms/panel-form'
import { checkPlan, overallLiking, type PlanProblem, type PlannedCup } from '@/lib/panel/plan'
import type { World } from './world'

export type TypedRefusal = PlanProblem | 'trial-gone' | 'title-tells' | 'recipe-gone'

interface Basis {
  readonly houseTrialId: string | null
  readonly isDemo: boolean
}

/** Looks at a typed plan again, now with what only the database knows. The reason's detail names the field. */
export async function checkTyped(
  tx: Tx,
  cafeId: string,
  recipeId: string,
  typed: PlanTyped,
): Promise<Result<Basis, TypedRefusal>> {
  const basis = await findPlanBasis(tx, cafeId, recipeId)
  if (!basis) return no('recipe-gone', { field: '' })
  const houseTrialId = (await findHouseRecipe(tx, cafeId, recipeId))?.trialId ?? null

  const nameOf = new Map(basis.trials.map((trial) => [trial.id, trial.name]))
  if (plannedCups(typed, houseTrialId).some((cup) => !nameOf.has(cup.trialId)))
    return no('trial-gone', { field: 'cups' })
  const [found] = checkPlan({
    ...typed,
    cups: plannedCups(typed, houseTrialId),
    pair: [typed.pairA, typed.pairB],
  })
  if (found) return no(found.problem, { field: found.field })

  const told = typed.cups.map((id) => nameOf.get(id) ?? '').find((name) => tells(typed.publicTitle, name))
  if (told !== undefined) return no('title-tells', { field: 'publicTitle', name: told })
  return ok({ houseTrialId, isDemo: basis.isDemo })
}

/** Tasters read the public title: a trial's name in it is half the key. */
function tells(publicTitle: string, trialName: string): boolean {
  const plain = (text: string) =>
    ` ${text
      .toLocaleLowerCase('en')
      .replace(/[^\p{L}\p{N}]+/gu, ' ')
      .trim()} `
  return plain(trialName).trim().length >= 3 && plain(publicTitle).includes(plain(trialName))
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
    primaryKind: typed.primaryKind,
    primaryTrialAId: isPair ? typed.pairA : null,
    primaryTrialBId: isPair ? typed.pairB : null,
    smallestDifference: typed.smallestDifference,
    notWorseMargin: typed.notWorseMargin,
    seatCount: typed.seatCount,
    sampleMl: typed.sampleMl,
    seenThrough: typed.seenThrough,
  }
}

export function cupsAndAttributes(
  world: World,
  typed: PlanTyped,
  houseTrialId: string | null,
): { readonly cups: readonly CupColumns[]; readonly attributes: readonly AttributeColumns[] } {
  return {
    cups: plannedCups(typed, houseTrialId).map((cup) => ({ ...cup, id: world.id() })),
    attributes: [overallLiking, ...typed.aspects].map((name) => ({ name, id: world.id() })),
  }
}
