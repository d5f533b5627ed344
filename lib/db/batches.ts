import 'server-only'
import type { Db, Tx } from './client'
import type { Prisma } from './generated/client'
import { inSlices } from './slices'

const whole = {
  preparation: true,
  inputs: { orderBy: { position: 'asc' } },
} as const satisfies Prisma.PreparationBatchInclude

/** One batch of a preparation with what went into it. */
export type BatchRow = Prisma.PreparationBatchGetPayload<{ include: typeof whole }>

/** All batches of a café, newest of each preparation first: a café has hundreds, and a trial may reach any of them. */
export async function findBatches(db: Db | Tx, cafeId: string): Promise<BatchRow[]> {
  return db.preparationBatch.findMany({ where: { cafeId }, include: whole, orderBy: { number: 'desc' } })
}

export async function findBatchesById(db: Db | Tx, cafeId: string, ids: readonly string[]): Promise<BatchRow[]> {
  return inSlices(ids, (some) => db.preparationBatch.findMany({ where: { cafeId, id: { in: some } }, include: whole }))
}

export async function addPreparation(tx: Tx, preparation: Prisma.PreparationUncheckedCreateInput): Promise<void> {
  await tx.preparation.create({ data: preparation })
}

/** Writes a batch with the next number of its preparation. @returns the number */
export async function addBatch(
  tx: Tx,
  batch: Omit<Prisma.PreparationBatchUncheckedCreateInput, 'number'>,
  inputs: readonly Omit<Prisma.BatchInputCreateManyInput, 'cafeId' | 'batchId' | 'position'>[],
): Promise<number> {
  const { cafeId, preparationId } = batch
  const last = await tx.preparationBatch.findFirst({
    where: { cafeId, preparationId },
    orderBy: { number: 'desc' },
    select: { number: true },
  })
  const number = (last?.number ?? 0) + 1
  await tx.preparationBatch.create({ data: { ...batch, number } })
  await tx.batchInput.createMany({
    data: inputs.map((input, place) => ({ ...input, cafeId, batchId: batch.id, position: place + 1 })),
  })
  return number
}
