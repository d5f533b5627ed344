import 'server-only'
import type { Db, Tx } from './engine/client'
import type { Prisma } from './generated/client'

/** What the sizes of a recipe cost the guest. */
export async function findSizePrices(db: Db | Tx, cafeId: string, recipeId: string) {
  return db.sizePrice.findMany({ where: { cafeId, recipeId }, select: { vesselId: true, priceMinor: true } })
}

export async function findSizePrice(db: Db | Tx, cafeId: string, recipeId: string, vesselId: string) {
  return db.sizePrice.findUnique({ where: { cafeId_recipeId_vesselId: { cafeId, recipeId, vesselId } } })
}

type SizePrice = Prisma.SizePriceUncheckedCreateInput

export async function putSizePrice(tx: Tx, { id, cafeId, recipeId, vesselId, ...price }: SizePrice): Promise<void> {
  const where = { cafeId_recipeId_vesselId: { cafeId, recipeId, vesselId } }
  await tx.sizePrice.upsert({ where, create: { id, cafeId, recipeId, vesselId, ...price }, update: price })
}

export async function removeSizePrice(tx: Tx, cafeId: string, recipeId: string, vesselId: string): Promise<void> {
  await tx.sizePrice.deleteMany({ where: { cafeId, recipeId, vesselId } })
}
