import 'server-only'
import { findBatchesById } from '@/lib/db/batches'
import type { Db, Tx } from '@/lib/db/engine/client'
import { findNewestFormulas, type FormulaRow } from '@/lib/db/formulas'
import { findHouseRecipes } from '@/lib/db/house-recipe'
import { findTrialContents } from '@/lib/db/trial-contents'

/**
 * The preparations that the café's house recipes are poured from, down through one another and
 * through what their formulas name, by id. Only these are the bar's:
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
  const made = new Set(batches.map(({ preparationId }) => preparationId))
  for (const { inputs } of await findFormulasWithin(db, cafeId, made))
    for (const { preparationId } of inputs) if (preparationId) made.add(preparationId)
  return made
}

/** The formulas that count of these preparations, and of all that those are made of. */
export async function findFormulasWithin(
  db: Db | Tx,
  cafeId: string,
  preparationIds: Iterable<string>,
): Promise<readonly FormulaRow[]> {
  const met = new Set(preparationIds)
  const found: FormulaRow[] = []
  for (let storey = [...met]; storey.length > 0;) {
    const rows = await findNewestFormulas(db, cafeId, storey)
    found.push(...rows)
    const named = rows.flatMap(({ inputs }) => inputs.flatMap((input) => input.preparationId ?? []))
    storey = [...new Set(named)].filter((id) => !met.has(id))
    for (const id of storey) met.add(id)
  }
  return found
}
