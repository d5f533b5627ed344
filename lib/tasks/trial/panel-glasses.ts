import 'server-only'
import { findBatchesById } from '@/lib/db/batches'
import type { Db, Tx } from '@/lib/db/engine/client'
import { findIngredientsById } from '@/lib/db/ingredients'
import { findTrialContents } from '@/lib/db/trial-contents'
import type { TrialRow } from '@/lib/db/trials'
import type { TrialBuild } from '@/lib/drink/trial'
import { partsInGlass } from '@/lib/drink/in-glass'
import { buildAsOfItsDay } from './frozen-build'
import { pastBatches, type PastBatch } from '../store/past-batches'
import { refOf, storeOf } from '../store/store-part'
import { trialBuild } from './trial-build'

/** What was in the glass of one trial, as far as cautions go. */
export interface Glass {
  /** the trial as its page shows it, and as its ingredients stand today: a caution of either is told */
  readonly builds: readonly TrialBuild[]
  readonly isEmpty: boolean
  /** names of what nobody has read the label of, with the id where it is an ingredient of today's store */
  readonly unread: readonly { readonly id: string | null; readonly name: string }[]
  /** batches on its sheet that are past their date */
  readonly past: readonly PastBatch[]
}

/** What it costs is nobody's caution: no price is asked for. */
const noDay = ''

/**
 * The same reading of each trial as on its page, its card and its file, by trial id. Only what these trials name is asked
 * of the store: a phone at the door waits for it.
 */
export async function readGlasses(
  db: Db | Tx,
  cafeId: string,
  allergenList: string,
  trials: readonly TrialRow[],
  now: Date,
): Promise<ReadonlyMap<string, Glass>> {
  const contents = [
    ...(
      await findTrialContents(
        db,
        cafeId,
        trials.map(({ id }) => id),
        'named',
      )
    ).values(),
  ]
  const [ingredients, batches] = await Promise.all([
    findIngredientsById(
      db,
      cafeId,
      noDay,
      contents.flatMap((one) => one.ingredients.map(({ id }) => id)),
    ),
    findBatchesById(
      db,
      cafeId,
      contents.flatMap((one) => one.batchIds),
    ),
  ])
  const cafe = { currency: '', currencyDigits: 2, allergenList }
  const store = storeOf(ingredients, batches, cafe.currencyDigits)
  const idOf = new Map(ingredients.map(({ id, name }) => [name, id]))
  return new Map(
    trials.map((trial) => {
      const today = trialBuild(trial, store, cafe)
      const builds = trial.frozenSheet === null ? [today] : [buildAsOfItsDay(trial, store, cafe), today]
      const parts = builds.flatMap((build) => partsInGlass(build))
      const names = new Set(parts.filter((part) => !part.labelRead).map((part) => part.name))
      const unread = [...names].map((name) => ({ id: idOf.get(name) ?? null, name }))
      const past = pastBatches(store, trial.lines.map(refOf), now)
      return [trial.id, { builds, isEmpty: parts.length === 0, unread, past }]
    }),
  )
}
