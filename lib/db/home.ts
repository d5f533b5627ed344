import 'server-only'
import type { Db, Tx } from './client'

/** Ingredients whose price changed after a day, out of a few. */
export async function findPricesSince(db: Db | Tx, cafeId: string, ingredientIds: readonly string[], after: Date) {
  return db.ingredientPrice.findMany({
    where: { cafeId, ingredientId: { in: [...ingredientIds] }, createdAt: { gt: after } },
    orderBy: { createdAt: 'desc' },
    distinct: ['ingredientId'],
    select: { createdAt: true, ingredient: { select: { id: true, name: true } } },
  })
}
