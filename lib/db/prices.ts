import 'server-only'
import type { Db, Tx } from './engine/client'
import type { Prisma } from './generated/client'
import { inSlices } from './slices'

/**
 * Which of an ingredient's prices holds on a day: of those not struck out, the one of the newest day that is not after it;
 * of one day, the later entry. Every place that takes a price asks for it by this.
 *
 * @param day      of the café's calendar, "2026-11-26"
 * @param knownAt  as it was known at a moment: without what was entered, and with what was struck, later
 */
export function priceOn(day: string, knownAt?: Date) {
  const known: Prisma.IngredientPriceWhereInput = knownAt
    ? { createdAt: { lte: knownAt }, OR: [{ struckAt: null }, { struckAt: { gt: knownAt } }] }
    : { struckAt: null }
  return {
    where: { ...known, day: { lte: day } },
    orderBy: newestFirst,
    take: 1,
  } satisfies Prisma.IngredientPriceFindManyArgs
}

/** The order in which prices are told: by day, then as they were entered. */
export const newestFirst: Prisma.IngredientPriceOrderByWithRelationInput[] = [
  { day: 'desc' },
  { createdAt: 'desc' },
  { id: 'desc' },
]

export async function addPrice(tx: Tx, price: Prisma.IngredientPriceUncheckedCreateInput): Promise<void> {
  await tx.ingredientPrice.create({ data: price })
}

/** The price of each of a few ingredients on a day; null where there is none. */
export async function findPricesOn(
  db: Db | Tx,
  cafeId: string,
  ingredientIds: readonly string[],
  day: string,
  knownAt?: Date,
) {
  const rows = await inSlices(ingredientIds, (some) =>
    db.ingredient.findMany({
      where: { cafeId, id: { in: some } },
      select: { id: true, name: true, prices: priceOn(day, knownAt) },
    }),
  )
  rows.sort((a, b) => (a.name < b.name ? -1 : 1))
  return rows.map(({ prices, ...ingredient }) => ({ ...ingredient, price: prices[0] ?? null }))
}

export async function findPrice(tx: Tx, cafeId: string, ingredientId: string, id: string) {
  return tx.ingredientPrice.findFirst({ where: { cafeId, ingredientId, id } })
}

/** @returns false when it was struck out before: who struck it first stays named */
export async function setPriceStruck(tx: Tx, cafeId: string, id: string, at: Date, byId: string): Promise<boolean> {
  const { count } = await tx.ingredientPrice.updateMany({
    where: { cafeId, id, struckAt: null },
    data: { struckAt: at, struckById: byId },
  })
  return count === 1
}
