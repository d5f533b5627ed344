import 'server-only'
import { demand } from '@/lib/base/demand'
import type { Tx } from '@/lib/db/engine/client'
import { freezeBatchesOf, setTrialFrozen } from '@/lib/db/frozen-trials'
import { findTrialWithCafe } from '@/lib/db/trials'
import { computeBuild } from '@/lib/drink/build'
import { writeFrozenSheet } from '@/lib/forms/frozen-sheet'
import { partsNamedIn, readStore } from '../store/reach-store'
import { whatToMend } from './to-mend'
import { trialBuild } from './trial-build'
import type { World } from '../world'

/**
 * A trial that is poured stays as it was poured, with every batch down its preparations and every figure as it was worked out
 * that day; see `lib/forms/frozen-sheet.ts`. Freezing again changes nothing.
 *
 * @returns whether it was frozen now, and not before
 */
export async function freezeTrial(tx: Tx, world: World, trialId: string): Promise<boolean> {
  const at = world.now()
  const found = await findTrialWithCafe(tx, trialId)
  if (!found || found.trial.frozenAt) return false
  const { trial, cafe } = found
  const store = await readStore(tx, trial.cafeId, world.now(), partsNamedIn([trial]))
  const build = trialBuild(trial, store, cafe)
  // Every act asks `refuseToMend` first and says so in words; this stops the one that forgets.
  const toMend = whatToMend(build)
  demand(toMend === null, `${trial.name} cannot be worked out, so it is not frozen: ${toMend}`)
  await freezeBatchesOf(tx, trialId, at)
  return setTrialFrozen(tx, trialId, at, writeFrozenSheet(build, computeBuild(build)))
}
