import 'server-only'
import { demand } from '@/lib/base/demand'
import type { Tx } from '@/lib/db/engine/client'
import { freezeBatchesOf, setPouredForLevels, setPouredOnLines, setTrialFrozen } from '@/lib/db/frozen-trials'
import { findTrial, findTrialWithCafe, type TrialRow } from '@/lib/db/trials'
import { computeBuild } from '@/lib/drink/build'
import { writeFrozenSheet } from '@/lib/forms/frozen-sheet'
import { partsNamedIn, readStore } from '../store/reach-store'
import { refOf, type Named, type Store } from '../store/store-part'
import { whatToMend } from './to-mend'
import { trialBuild } from './trial-build'
import type { World } from '../world'

/** From here on it is known which batch of each preparation that the sheet names was poured: the one that went first. */
async function settleBatches(tx: Tx, { id, lines }: TrialRow, store: Store): Promise<void> {
  const poured = (row: Named) => (row.preparationId === null ? null : store.get(refOf(row))?.pour) ?? null
  const all = lines.flatMap((line) => [line, ...line.alternatives].flatMap((row) => poured(row) ?? []))
  for (const [preparationId, batch] of new Map(all.map((pour) => [pour.preparationId, pour.batch]))) {
    await setPouredOnLines(tx, id, preparationId, batch?.id ?? null)
    await setPouredForLevels(tx, id, preparationId, batch?.id ?? null, 'all')
  }
}

/**
 * What a cost level uses on a trial that froze before anybody said so: of a preparation the batch that goes first today, where
 * none was said before.
 */
export async function settleLevels(tx: Tx, world: World, cafeId: string, trialId: string): Promise<void> {
  const trial = await findTrial(tx, cafeId, trialId)
  if (!trial?.frozenAt) return
  const store = await readStore(tx, cafeId, world.now(), partsNamedIn([trial]))
  for (const row of trial.lines.flatMap(({ alternatives }) => alternatives)) {
    const pour = row.preparationId === null ? null : store.get(refOf(row))?.pour
    if (pour?.batch) await setPouredForLevels(tx, trialId, pour.preparationId, pour.batch.id, 'unsaid')
  }
  await freezeBatchesOf(tx, trialId, world.now())
}

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
  await settleBatches(tx, trial, store)
  const build = trialBuild(trial, store, cafe)
  // Every act asks `refuseToMend` first and says so in words; this stops the one that forgets.
  const toMend = whatToMend(build)
  demand(toMend === null, `${trial.name} cannot be worked out, so it is not frozen: ${toMend}`)
  await freezeBatchesOf(tx, trialId, at)
  return setTrialFrozen(tx, trialId, at, writeFrozenSheet(build, computeBuild(build)))
}
