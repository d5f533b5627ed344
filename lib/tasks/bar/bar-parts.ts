import 'server-only'
import type { Db, Tx } from '@/lib/db/engine/client'
import { isInDate } from '../store/in-date'
import { readStore } from '../store/reach-store'
import type { StorePart } from '../store/store-part'
import { findHouseIngredients } from './house-ingredients'
import { findHousePreparations } from './house-preparations'
import { readShelf } from './shelf'

/**
 * What a batch may be made of behind the bar: what house recipes are made of, and batches of theirs that are not past their
 * date. Nothing among it costs anything.
 */
export async function findBarParts(db: Db | Tx, cafeId: string, now: Date): Promise<readonly StorePart[]> {
  const ingredients = await findHouseIngredients(db, cafeId)
  const shelf = await readShelf(db, cafeId, [...(await findHousePreparations(db, cafeId))])
  const refs = [
    ...[...ingredients].map((id) => `ingredient:${id}`),
    ...shelf.filter((batch) => isInDate(batch, now)).map(({ id }) => `batch:${id}`),
  ]
  const store = await readStore(db, cafeId, now, refs)
  return refs
    .flatMap((ref) => store.get(ref) ?? [])
    .filter(({ archived }) => !archived)
    .map((part) => ({ ...part, costPerGram: null, preparation: null }))
    .toSorted((a, b) => a.name.localeCompare(b.name))
}
