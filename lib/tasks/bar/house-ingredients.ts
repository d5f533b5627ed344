import 'server-only'
import type { Db, Tx } from '@/lib/db/engine/client'
import { findHouseRecipes } from '@/lib/db/house-recipe'
import { findTrialContents } from '@/lib/db/trial-contents'
import { findFormulasWithin, findHousePreparations } from './house-preparations'

/**
 * The ingredients that the café's house recipes are made of, down through their batches and the formulas of what is made for
 * them, by id. Only these are the bar's.
 */
export async function findHouseIngredients(db: Db | Tx, cafeId: string): Promise<ReadonlySet<string>> {
  const trialIds = (await findHouseRecipes(db, cafeId)).map(({ trial }) => trial.id)
  const contents = await findTrialContents(db, cafeId, trialIds)
  const formulas = await findFormulasWithin(db, cafeId, await findHousePreparations(db, cafeId))
  return new Set([
    ...[...contents.values()].flatMap(({ ingredients }) => ingredients.map(({ id }) => id)),
    ...formulas.flatMap(({ inputs }) => inputs.flatMap(({ ingredientId }) => ingredientId ?? [])),
  ])
}
