import 'server-only'
import type { Db, Tx } from './engine/client'
import type { Prisma } from './generated/client'
import { inSlices } from './slices'

// An order inside a question about many cannot be split, and more than some 998 of them fail: inputs are put in order here.
const whole = { preparation: true, inputs: true } as const satisfies Prisma.PreparationBatchInclude

/** One batch of a preparation with what went into it. */
export type BatchRow = Prisma.PreparationBatchGetPayload<{ include: typeof whole }>

export async function findBatchesById(db: Db | Tx, cafeId: string, ids: readonly string[]): Promise<BatchRow[]> {
  const rows = await inSlices(ids, (some) =>
    db.preparationBatch.findMany({ where: { cafeId, id: { in: some } }, include: whole }),
  )
  for (const { inputs } of rows) inputs.sort((a, b) => a.position - b.position)
  return rows
}

/** These batches and every batch down their inputs, storey by storey; the rest of the café's years is not read. */
export async function findBatchesWithin(db: Db | Tx, cafeId: string, ids: readonly string[]): Promise<BatchRow[]> {
  const found = new Map<string, BatchRow>()
  let storey: readonly string[] = ids
  while (storey.length > 0) {
    const rows = await findBatchesById(db, cafeId, storey)
    for (const row of rows) found.set(row.id, row)
    const held = rows.flatMap(({ inputs }) => inputs.flatMap(({ inputBatchId }) => inputBatchId ?? []))
    storey = held.filter((id) => !found.has(id))
  }
  return [...found.values()]
}

const preparationsAtOnce = 200

/**
 * The newest batches of each preparation, put aside none, newest numbers first: what somebody at the bench may pour today.
 *
 * @param each  how many numbers back from the newest of its preparation
 */
export async function findNewestBatchIds(db: Db | Tx, cafeId: string, each: number): Promise<string[]> {
  const onShelf = { cafeId, archivedAt: null, preparation: { archivedAt: null } }
  const newest = await db.preparationBatch.groupBy({ by: ['preparationId'], where: onShelf, _max: { number: true } })
  const rows: { id: string; number: number }[] = []
  for (let from = 0; from < newest.length; from += preparationsAtOnce) {
    const ranges = newest.slice(from, from + preparationsAtOnce).map(({ preparationId, _max }) => ({
      preparationId,
      number: { gt: (_max.number ?? 0) - each },
    }))
    const select = { id: true, number: true }
    rows.push(...(await db.preparationBatch.findMany({ where: { ...onShelf, OR: ranges }, select })))
  }
  return rows.toSorted((a, b) => b.number - a.number).map(({ id }) => id)
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
