import 'server-only'
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

/** Every batch in the trial, down to the last preparation of a preparation. */
export async function freezeBatchesOf(tx: Tx, trialId: string, at: Date): Promise<void> {
  const trial = await tx.trial.findUnique({ where: { id: trialId }, select: { cafeId: true } })
  if (!trial) return
  const contents = await findTrialContents(tx, trial.cafeId, [trialId], 'in-the-glass')
  await tx.preparationBatch.updateMany({
    where: { cafeId: trial.cafeId, id: { in: [...(contents.get(trialId)?.batchIds ?? [])] }, frozenAt: null },
    data: { frozenAt: at },
  })
}
