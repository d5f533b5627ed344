import 'server-only'
import { findNewestBatchIds } from './batches'
import type { Db, Tx } from './engine/client'
import { inSlices } from './slices'

const shape = {
  id: true,
  preparationId: true,
  number: true,
  madeAt: true,
  discardAt: true,
  archivedAt: true,
  preparation: { select: { name: true } },
} as const

/** How many batches back from the newest of its preparation may still stand at a bar. */
const ON_SHELF = 10

/** The newest batches of these preparations that are not put aside. */
export async function findShelf(db: Db | Tx, cafeId: string, preparationIds: readonly string[]) {
  const ids = await findNewestBatchIds(db, cafeId, ON_SHELF, preparationIds)
  return inSlices(ids, (some) => db.preparationBatch.findMany({ where: { cafeId, id: { in: some } }, select: shape }))
}

export type ShelfRow = Awaited<ReturnType<typeof findShelf>>[number]

/** Batches of the whole café whose date has come by a moment and that are not put aside, the latest first. */
export async function findDue(db: Db | Tx, cafeId: string, until: Date, atMost: number) {
  return db.preparationBatch.findMany({
    where: { cafeId, archivedAt: null, discardAt: { lte: until } },
    orderBy: { discardAt: 'desc' },
    take: atMost,
    select: shape,
  })
}

/** One batch as its label and the bar name it. */
export async function findShelfBatch(db: Db | Tx, cafeId: string, id: string) {
  return db.preparationBatch.findFirst({ where: { cafeId, id }, select: shape })
}
