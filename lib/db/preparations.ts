import 'server-only'
import type { BatchRow } from './batches'
import type { Db, Tx } from './client'
import type { Prisma } from './generated/client'

const withBatches = {
  batches: {
    orderBy: { number: 'desc' },
    select: {
      id: true,
      number: true,
      madeAt: true,
      discardAt: true,
      outputMg: true,
      frozenAt: true,
      archivedAt: true,
    },
  },
} as const satisfies Prisma.PreparationInclude

/** A preparation with its batches, newest first. */
export type PreparationRow = Prisma.PreparationGetPayload<{ include: typeof withBatches }>

export async function findPreparations(db: Db | Tx, cafeId: string): Promise<PreparationRow[]> {
  return db.preparation.findMany({ where: { cafeId }, include: withBatches, orderBy: { name: 'asc' } })
}

export async function findPreparation(db: Db | Tx, cafeId: string, id: string): Promise<PreparationRow | null> {
  return db.preparation.findFirst({ where: { cafeId, id }, include: withBatches })
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
  for (const { batchId, inputBatchId } of inputs)
    if (inputBatchId) uses.set(batchId, [...(uses.get(batchId) ?? []), inputBatchId])
  return uses
}
