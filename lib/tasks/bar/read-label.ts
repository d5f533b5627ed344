import 'server-only'
import { allergensOf, type AllergenUnion } from '@/lib/drink/allergen'
import { preparationContents } from '@/lib/drink/preparation'
import { findShelfBatch } from '@/lib/db/shelf'
import { readStore } from '../store/reach-store'
import { allergenListOf } from '../trial/trial-build'
import type { Reader, World } from '../world'
import { findHousePreparations } from './house-preparations'
import { readShelf } from './shelf'

/** What is stuck on a bottle. */
export interface Label {
  readonly preparationId: string
  readonly name: string
  readonly number: number
  readonly madeAt: Date | null
  readonly discardAt: Date | null
  readonly allergens: AllergenUnion
}

/** @param reads  may also label what no house recipe is made of. @returns null where there is no such batch, or it is not the bar's */
export async function readLabel(world: World, reader: Reader, batchId: string, reads: boolean): Promise<Label | null> {
  const row = await findShelfBatch(world.db, reader.cafeId, batchId)
  if (!row || row.archivedAt !== null) return null
  if (!reads && !(await findHousePreparations(world.db, reader.cafeId)).has(row.preparationId)) return null
  const now = world.now()
  const [store, shelf] = await Promise.all([
    readStore(world.db, reader.cafeId, now, [`batch:${batchId}`]),
    readShelf(world.db, reader.cafeId, [row.preparationId]),
  ])
  const preparation = store.get(`batch:${batchId}`)?.preparation
  if (!preparation) return null
  const { parts } = preparationContents(preparation)
  return {
    preparationId: row.preparationId,
    name: row.preparation.name,
    number: row.number,
    madeAt: row.madeAt,
    discardAt: shelf.find(({ id }) => id === batchId)?.discardAt ?? row.discardAt,
    allergens: allergensOf(parts, allergenListOf(reader.cafe)),
  }
}
