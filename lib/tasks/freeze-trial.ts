import 'server-only'
import type { Tx } from '@/lib/db/client'
import { freezeBatchesOf, setTrialFrozen } from '@/lib/db/frozen-trials'
import type { World } from './world'

/**
 * A trial that is poured stays as it was poured, with every batch down its preparations. Freezing again changes nothing.
 *
 * @returns whether it was frozen now, and not before
 */
export async function freezeTrial(tx: Tx, world: World, trialId: string): Promise<boolean> {
  const at = world.now()
  await freezeBatchesOf(tx, trialId, at)
  return setTrialFrozen(tx, trialId, at)
}
