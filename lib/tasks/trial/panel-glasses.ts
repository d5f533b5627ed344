import 'server-only'
import type { Db, Tx } from '@/lib/db/engine/client'
import type { TrialRow } from '@/lib/db/trials'
import type { TrialBuild } from '@/lib/drink/trial'
import { partsInGlass } from '@/lib/drink/in-glass'
import { buildAsOfItsDay } from './frozen-build'
import { pastBatches, type PastBatch } from '../store/past-batches'
import { partsNamedIn, readStore } from '../store/reach-store'
import { refOf } from '../store/store-part'
import { batchesPoured, todaysBatches, type PouredBatch, type TodaysBatch } from './todays-batches'
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
  /** of each line that names a preparation: the batch that stands for it today */
  readonly todays: readonly TodaysBatch[]
  /** every batch that goes straight into it, by the name of its preparation */
  readonly batches: readonly PouredBatch[]
}

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
  const cafe = { currency: '', currencyDigits: 2, allergenList }
  const store = await readStore(db, cafeId, now, partsNamedIn(trials))
  const idOf = new Map(
    [...store.values()].flatMap(({ ref, name }) =>
      ref.startsWith('ingredient:') ? [[name, ref.slice('ingredient:'.length)] as const] : [],
    ),
  )
  return new Map(
    trials.map((trial) => {
      const today = trialBuild(trial, store, cafe)
      const builds = trial.frozenSheet === null ? [today] : [buildAsOfItsDay(trial, store, cafe), today]
      const parts = builds.flatMap((build) => partsInGlass(build))
      const names = new Set(parts.filter((part) => !part.labelRead).map((part) => part.name))
      const unread = [...names].map((name) => ({ id: idOf.get(name) ?? null, name }))
      const past = pastBatches(store, trial.lines.map(refOf), now)
      const todays = todaysBatches(trial, store)
      const batches = batchesPoured(trial, store)
      return [trial.id, { builds, isEmpty: parts.length === 0, unread, past, todays, batches }]
    }),
  )
}
