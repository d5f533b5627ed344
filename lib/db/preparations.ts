import 'server-only'
import type { BatchRow } from './batches'
import type { Db, Tx } from './engine/client'
import type { Prisma } from './generated/client'
import { inSlices } from './slices'

const batchLine = {
  id: true,
  preparationId: true,
  number: true,
  madeAt: true,
  discardAt: true,
  outputMg: true,
  frozenAt: true,
  archivedAt: true,
} as const satisfies Prisma.PreparationBatchSelect

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

/** Batches of one preparation, newest first. @param before  only those with a lower number */
export async function findBatchesOf(
  db: Db | Tx,
  cafeId: string,
  preparationId: string,
  before: number | null,
  atMost: number,
) {
  return db.preparationBatch.findMany({
    where: { cafeId, preparationId, ...(before === null ? {} : { number: { lt: before } }) },
    orderBy: { number: 'desc' },
    take: atMost,
    select: batchLine,
  })
}

/** "Date syrup, batch 3" for each of a few batches. */
export async function findBatchNames(
  db: Db | Tx,
  cafeId: string,
  ids: readonly string[],
): Promise<ReadonlyMap<string, string>> {
  const rows = await inSlices(ids, (some) =>
    db.preparationBatch.findMany({
      where: { cafeId, id: { in: some } },
      select: { id: true, number: true, preparation: { select: { name: true } } },
    }),
  )
  return new Map(rows.map(({ id, number, preparation }) => [id, `${preparation.name}, batch ${number}`]))
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

export async function findBatch(db: Db | Tx, cafeId: string, id: string): Promise<BatchRow | null> {
  return db.preparationBatch.findFirst({
    where: { cafeId, id },
    include: { preparation: true, inputs: { orderBy: { position: 'asc' } } },
  })
}

/** Writes a batch and its inputs anew; its number stays. */
export async function changeBatch(
  tx: Tx,
  cafeId: string,
  id: string,
  batch: Prisma.PreparationBatchUncheckedUpdateInput,
  inputs: readonly Omit<Prisma.BatchInputCreateManyInput, 'cafeId' | 'batchId' | 'position'>[],
): Promise<void> {
  await tx.preparationBatch.update({ where: { id, cafeId }, data: batch })
  await tx.batchInput.deleteMany({ where: { cafeId, batchId: id } })
  await tx.batchInput.createMany({
    data: inputs.map((input, place) => ({ ...input, cafeId, batchId: id, position: place + 1 })),
  })
}

export async function setBatchArchived(tx: Tx, cafeId: string, id: string, at: Date | null): Promise<boolean> {
  const { count } = await tx.preparationBatch.updateMany({ where: { id, cafeId }, data: { archivedAt: at } })
  return count === 1
}

/** Which batch is made of which, over the whole café. */
export async function findBatchUses(db: Db | Tx, cafeId: string): Promise<Map<string, string[]>> {
  const inputs = await db.batchInput.findMany({
    where: { cafeId, inputBatchId: { not: null } },
    select: { batchId: true, inputBatchId: true },
  })
  const uses = new Map<string, string[]>()
  for (const { batchId, inputBatchId } of inputs) {
    if (!inputBatchId) continue
    const before = uses.get(batchId)
    if (before) before.push(inputBatchId)
    else uses.set(batchId, [inputBatchId])
  }
  return uses
}
