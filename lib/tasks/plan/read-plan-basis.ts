import 'server-only'
import { findHouseRecipe } from '@/lib/db/house-recipe'
import { findPlanBasis } from '@/lib/db/panels'
import { planLimits } from '@/lib/panel/plan'
import { overage } from '@/lib/panel/portions'
import { freshTitle } from '@/lib/panel/title'
import type { Actor, World } from '../world'

export interface PlanBasis {
  readonly recipe: { readonly id: string; readonly name: string }
  /** the house recipe first, then the newest first */
  readonly trials: readonly {
    readonly id: string
    readonly name: string
    readonly number: number
    readonly isHouse: boolean
  }[]
  readonly houseTrialId: string | null
  /** what a new panel is called until somebody names it */
  readonly firstTitle: string
  /** further questions one may ask */
  readonly mostAspects: number
  readonly mostCups: number
  readonly mostCupsPerTaster: number
  /** poured beyond what is drunk */
  readonly overagePercent: number
}

/** What a panel of this recipe may choose from. @returns null when there is no such recipe */
export async function readPlanBasis(world: World, actor: Actor, recipeId: string): Promise<PlanBasis | null> {
  const basis = await findPlanBasis(world.db, actor.cafeId, recipeId)
  if (!basis) return null
  const houseTrialId = (await findHouseRecipe(world.db, actor.cafeId, recipeId))?.trialId ?? null
  const trials = basis.trials
    .map(({ id, name, number }) => ({ id, name, number, isHouse: id === houseTrialId }))
    .toSorted((a, b) => Number(b.isHouse) - Number(a.isHouse))
  return {
    recipe: { id: basis.id, name: basis.name },
    trials,
    houseTrialId,
    firstTitle: freshTitle(basis.name, basis.panelCount),
    mostCupsPerTaster: planLimits.cupsPerTaster.most,
    mostCups: planLimits.cups.most,
    mostAspects: planLimits.questions.most,
    overagePercent: Math.round(overage * 100),
  }
}
