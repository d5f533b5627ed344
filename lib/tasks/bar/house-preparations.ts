import 'server-only'
import { findBatchesById } from '@/lib/db/batches'
import type { Db, Tx } from '@/lib/db/engine/client'
import { findHouseRecipes } from '@/lib/db/house-recipe'
import { findTrialContents } from '@/lib/db/trial-contents'

/**
 * The preparations that the café's house recipes are poured from, down through one another, by id. Only these are the bar's:
 * what a trial of an open panel is made of, the house recipe aside, stays closed to whoever serves it.
 */
export async function findHousePreparations(db: Db | Tx, cafeId: string): Promise<ReadonlySet<string>> {
  const trialIds = (await findHouseRecipes(db, cafeId)).map(({ trial }) => trial.id)
  const contents = await findTrialContents(db, cafeId, trialIds)
  const batches = await findBatchesById(
    db,
    cafeId,
    [...contents.values()].flatMap(({ batchIds }) => batchIds),
  )
  return new Set(batches.map(({ preparationId }) => preparationId))
}
