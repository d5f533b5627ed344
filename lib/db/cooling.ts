import 'server-only'
import type { Db, Tx } from './engine/client'
import type { Prisma } from './generated/client'

/** What the thermometer showed in these batches, struck out or not, in the order of its time. */
export async function findCooling(db: Db | Tx, cafeId: string, batchIds: readonly string[]) {
  return db.coolingReading.findMany({
    where: { cafeId, batchId: { in: [...batchIds] } },
    // of one minute the warmer first: a batch cools
    orderBy: [{ at: 'asc' }, { deciC: 'desc' }, { id: 'asc' }],
  })
}

export async function findCoolingReading(db: Db | Tx, cafeId: string, id: string) {
  return db.coolingReading.findFirst({ where: { cafeId, id } })
}

/** @returns false where this key was written before */
export async function addCoolingReading(tx: Tx, row: Prisma.CoolingReadingUncheckedCreateInput): Promise<boolean> {
  const { cafeId, key } = row
  if (await tx.coolingReading.findUnique({ where: { cafeId_key: { cafeId, key } }, select: { id: true } })) return false
  await tx.coolingReading.create({ data: row })
  return true
}

export async function strikeCoolingReading(tx: Tx, cafeId: string, id: string, at: Date, byId: string): Promise<void> {
  await tx.coolingReading.update({ where: { id, cafeId }, data: { struckAt: at, struckById: byId } })
}
