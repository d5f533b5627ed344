import 'server-only'
import type { Db, Tx } from '@/lib/db/engine/client'
import { findHouseRecipes } from '@/lib/db/house-recipe'
import { findTrialContents } from '@/lib/db/trial-contents'

/** The ingredients that the café's house recipes are made of, down through their batches, by id. Only these are the bar's. */
export async function findHouseIngredients(db: Db | Tx, cafeId: string): Promise<ReadonlySet<string>> {
  const trialIds = (await findHouseRecipes(db, cafeId)).map(({ trial }) => trial.id)
  const contents = await findTrialContents(db, cafeId, trialIds)
  return new Set([...contents.values()].flatMap(({ ingredients }) => ingredients.map(({ id }) => id)))
}
