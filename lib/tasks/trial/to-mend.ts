import 'server-only'
import { no } from '@/lib/base/result'
import type { Db, Tx } from '@/lib/db/engine/client'
import { findTrialsWithCafe, type TrialRow } from '@/lib/db/trials'
import type { TrialBuild } from '@/lib/drink/trial'
import { problemsOfBuild } from '@/lib/drink/problem'
import { partsNamedIn, readStore } from '../store/reach-store'
import type { Store } from '../store/store-part'
import { trialBuild } from './trial-build'
import type { CafeMoney } from '../world'

/** Why a sheet cannot be worked out: the first of its problems, as the sheet itself says it. A doubt stops nobody. */
export function whatToMend(build: TrialBuild): string | null {
  return problemsOfBuild(build).find(({ doubt }) => !doubt)?.message ?? null
}

/** The same of a trial that would be frozen; null of one that is, because what it froze with is kept whatever it says. */
export function toMendOf(trial: TrialRow, store: Store, cafe: CafeMoney): string | null {
  return trial.frozenAt === null ? whatToMend(trialBuild(trial, store, cafe)) : null
}

/** By trial id, what keeps each of these trials from being frozen; trials that nothing keeps are left out. */
export async function findToMend(
  db: Db | Tx,
  cafeId: string,
  now: Date,
  trialIds: readonly string[],
): Promise<ReadonlyMap<string, { readonly name: string; readonly message: string }>> {
  const found = await findTrialsWithCafe(db, cafeId, [...new Set(trialIds)])
  if (!found) return new Map()
  const store = await readStore(db, cafeId, now, partsNamedIn(found.trials))
  return new Map(
    found.trials.flatMap((trial) => {
      const message = toMendOf(trial, store, found.cafe)
      return message === null ? [] : [[trial.id, { name: trial.name, message }] as const]
    }),
  )
}

/** The refusal of whoever would freeze one of these trials; null when nothing keeps them. */
export async function refuseToMend(db: Db | Tx, cafeId: string, now: Date, trialIds: readonly string[]) {
  for (const [trialId, { name, message }] of await findToMend(db, cafeId, now, trialIds))
    return no('cannot-be-worked-out', { name, message, trialId })
  return null
}
