import 'server-only'
import { findBatchesWithin } from './batches'
import { findTrialContents } from './trial-contents'
import type { Tx } from './engine/client'

/** @returns false when it was frozen before, or is not there */
export async function setTrialFrozen(tx: Tx, trialId: string, at: Date, frozenSheet: string): Promise<boolean> {
  const { count } = await tx.trial.updateMany({
    where: { id: trialId, frozenAt: null },
    data: { frozenAt: at, frozenSheet },
  })
  return count === 1
}

/** Writes which batch stands for a preparation on the lines of a trial that name it; null: none is in date. */
export async function setPouredOnLines(tx: Tx, trialId: string, preparationId: string, batchId: string | null) {
  await tx.trialLine.updateMany({ where: { trialId, preparationId }, data: { batchId } })
}

/** The same of what cost levels use. @param only  those of which nobody has said it yet */
export async function setPouredForLevels(
  tx: Tx,
  trialId: string,
  preparationId: string,
  batchId: string | null,
  only: 'all' | 'unsaid',
) {
  const unsaid = only === 'unsaid' ? { batchId: null } : {}
  await tx.lineAlternative.updateMany({ where: { line: { trialId }, preparationId, ...unsaid }, data: { batchId } })
}

/** Every batch in the trial, down to the last preparation of a preparation. */
export async function freezeBatchesOf(tx: Tx, trialId: string, at: Date): Promise<void> {
  const trial = await tx.trial.findUnique({ where: { id: trialId }, select: { cafeId: true } })
  if (!trial) return
  const contents = await findTrialContents(tx, trial.cafeId, [trialId])
  await setBatchesFrozen(tx, trial.cafeId, contents.get(trialId)?.batchIds ?? [], at)
}

/** These batches, and every batch within them. */
export async function freezeBatches(tx: Tx, cafeId: string, batchIds: readonly string[], at: Date): Promise<void> {
  const all = await findBatchesWithin(tx, cafeId, batchIds)
  await setBatchesFrozen(
    tx,
    cafeId,
    all.map(({ id }) => id),
    at,
  )
}

async function setBatchesFrozen(tx: Tx, cafeId: string, ids: readonly string[], at: Date): Promise<void> {
  await tx.preparationBatch.updateMany({
    where: { cafeId, id: { in: [...ids] }, frozenAt: null },
    data: { frozenAt: at },
  })
}
