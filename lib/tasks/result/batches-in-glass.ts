import 'server-only'
import { findAuditDetail } from '@/lib/db/audit'
import type { TrialRow } from '@/lib/db/trials'
import { readSaidBatches, type SaidBatch } from '../trial/said-batches'
import { frozenWith } from '../trial/frozen-build'
import type { World } from '../world'

/** A batch that went straight into a glass. */
export interface BatchInGlass {
  /** of the preparation, as it was called that day */
  readonly name: string
  /** null: nobody kept which one it was */
  readonly batch: number | null
}

/** The batches on the sheet a trial was frozen with; none of a draft. */
export const batchesOnSheet = (trial: Pick<TrialRow, 'frozenSheet'>): readonly BatchInGlass[] =>
  once(linesOf(trial).map(({ name, batch }) => ({ name, batch })))

/**
 * Which batch of each preparation went into which trial of an opened panel, by trial id. A sheet that names the batch says
 * it; of one that names the preparation the diary of the opening does, since the sheet may be of an earlier panel.
 *
 * @param panel  of the actor's café
 */
export async function batchesPouredIn(
  { db }: Pick<World, 'db'>,
  cafeId: string,
  panel: { readonly id: string; readonly openedAt: Date | null },
  trials: readonly TrialRow[],
): Promise<ReadonlyMap<string, readonly BatchInGlass[]>> {
  const said = readSaidBatches(await findAuditDetail(db, cafeId, panel.id, 'panel-opened'))
  return new Map(trials.map((trial) => [trial.id, once(pouredInto(trial, panel.openedAt, said))]))
}

function pouredInto(trial: TrialRow, openedAt: Date | null, said: readonly SaidBatch[]): BatchInGlass[] {
  const lines = linesOf(trial)
  const fixed = lines.filter(({ anyBatch }) => !anyBatch)
  const own = said.filter((one) => one.trial === trial.number)
  if (own.length > 0) return [...fixed, ...own].map(({ name, batch }) => ({ name, batch }))
  // Houses opened panels before the diary said it: a sheet frozen by this very opening knows, an older one does not.
  const frozenHere = trial.frozenAt !== null && openedAt !== null && trial.frozenAt >= openedAt
  return lines.map(({ name, batch, anyBatch }) => ({ name, batch: anyBatch && !frozenHere ? null : batch }))
}

function linesOf(trial: Pick<TrialRow, 'frozenSheet'>) {
  return (frozenWith(trial)?.build.lines ?? []).flatMap(({ preparation, anyBatch = false }) => {
    if (!preparation) return []
    const number = Number(preparation.batch)
    return [{ name: preparation.name, batch: Number.isSafeInteger(number) ? number : null, anyBatch }]
  })
}

const once = (all: readonly BatchInGlass[]): readonly BatchInGlass[] => [
  ...new Map(all.map((one) => [`${one.batch} ${one.name}`, one])).values(),
]
