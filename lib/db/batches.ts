import 'server-only'
import type { Db, Tx } from './client'
import type { Prisma } from './generated/client'

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
