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
  shelfMg: true,
  shelfAt: true,
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

/** Of these names, what is bought and not put aside, with what somebody last counted of it. */
export async function findCountedIngredients(db: Db | Tx, cafeId: string, names: readonly string[]) {
  return inSlices(names, (some) =>
    db.ingredient.findMany({
      where: { cafeId, archivedAt: null, name: { in: some } },
      select: { id: true, name: true, shelfMg: true, shelfAt: true },
    }),
  )
}

/** @returns false where it is not there, or was put aside */
export async function setCounted(
  tx: Tx,
  { kind, ...of }: { readonly cafeId: string; readonly kind: 'batch' | 'ingredient'; readonly id: string },
  counted: { readonly shelfMg: number; readonly shelfAt: Date },
): Promise<boolean> {
  const one = { where: { ...of, archivedAt: null }, data: counted }
  const { count } = kind === 'batch' ? await tx.preparationBatch.updateMany(one) : await tx.ingredient.updateMany(one)
  return count === 1
}
