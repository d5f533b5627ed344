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
 * @param of    of these preparations alone, a few hundred at most
 */
export async function findNewestBatchIds(
  db: Db | Tx,
  cafeId: string,
  each: number,
  of?: readonly string[],
): Promise<string[]> {
  const these = of ? { preparationId: { in: [...of] } } : {}
  const onShelf = { cafeId, archivedAt: null, preparation: { archivedAt: null }, ...these }
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

/** What a list says of a batch. */
export const batchLine = {
  id: true,
  preparationId: true,
  number: true,
  madeAt: true,
  discardAt: true,
  outputMg: true,
  frozenAt: true,
  archivedAt: true,
} as const satisfies Prisma.PreparationBatchSelect

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
