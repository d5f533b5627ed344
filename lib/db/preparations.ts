import 'server-only'
import { batchLine } from './batches'
import type { Db, Tx } from './engine/client'
import type { Prisma } from './generated/client'
import { inSlices } from './slices'

/** Every preparation with how many batches it has and its newest that is not put aside; the others are not read. */
export async function findPreparations(db: Db | Tx, cafeId: string) {
  const [preparations, all, newest] = await Promise.all([
    db.preparation.findMany({ where: { cafeId }, orderBy: { name: 'asc' } }),
    db.preparationBatch.groupBy({ by: ['preparationId'], where: { cafeId }, _count: { _all: true } }),
    db.preparationBatch.groupBy({
      by: ['preparationId'],
      where: { cafeId, archivedAt: null },
      _max: { number: true },
    }),
  ])
  const counts = new Map(all.map(({ preparationId, _count }) => [preparationId, _count._all]))
  const numbers = new Map(newest.map(({ preparationId, _max }) => [preparationId, _max.number]))
  const latest = await inSlices(numbers.keys(), (some) =>
    db.preparationBatch.findMany({
      where: { cafeId, OR: some.map((preparationId) => ({ preparationId, number: numbers.get(preparationId) ?? 0 })) },
      select: batchLine,
    }),
  )
  const latestOf = new Map(latest.map((batch) => [batch.preparationId, batch]))
  return preparations.map((preparation) => ({
    ...preparation,
    batchCount: counts.get(preparation.id) ?? 0,
    latest: latestOf.get(preparation.id) ?? null,
  }))
}

export type PreparationRow = Prisma.PreparationGetPayload<object>

export async function findPreparation(db: Db | Tx, cafeId: string, id: string): Promise<PreparationRow | null> {
  return db.preparation.findFirst({ where: { cafeId, id } })
}

export async function findPreparationsById(
  db: Db | Tx,
  cafeId: string,
  ids: readonly string[],
): Promise<PreparationRow[]> {
  return inSlices(ids, (some) => db.preparation.findMany({ where: { cafeId, id: { in: some } } }))
}

export async function findPreparationByName(db: Db | Tx, cafeId: string, name: string) {
  return db.preparation.findUnique({ where: { cafeId_name: { cafeId, name } }, select: { id: true } })
}

export async function changePreparation(
  tx: Tx,
  cafeId: string,
  id: string,
  change: Prisma.PreparationUncheckedUpdateInput,
): Promise<void> {
  await tx.preparation.update({ where: { id, cafeId }, data: change })
}

export async function addPreparation(tx: Tx, preparation: Prisma.PreparationUncheckedCreateInput): Promise<void> {
  await tx.preparation.create({ data: preparation })
}
