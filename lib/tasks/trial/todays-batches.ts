import 'server-only'
import type { TrialRow } from '@/lib/db/trials'
import { goesByBrix, type OtherBatch } from '@/lib/drink/other-batch'
import { lineOf } from '@/lib/drink/part'
import type { BuildLine, TrialBuild } from '@/lib/drink/trial'
import { brixOfBatch, doseInOther, isUnread } from '../store/batch-brix'
import { refOf, type Named, type Pour, type Store } from '../store/store-part'

/** A batch as a page names it. */
export interface NamedBatch {
  readonly id: string
  readonly number: number
}

/** A line that names a preparation, and what stands for it today. */
export interface TodaysBatch {
  /** of the line of the sheet, and its place there, counted from 1 */
  readonly key: string
  readonly line: number
  readonly preparationId: string
  readonly name: string
  /** null: none is in date */
  readonly batch: NamedBatch | null
  readonly discardAt: Date | null
  /** the batch it was written with, or was poured from when the trial froze; null where nobody knows */
  readonly before: NamedBatch | null
  readonly wasPoured: boolean
  /** g on the sheet */
  readonly dose: number
  /** it goes by °Bx: another batch of it takes another dose */
  readonly byBrix: boolean
  /** °Bx that this dose was written for, of its batch, else of the formula; null where nobody knows */
  readonly doseBrix: number | null
  /** °Bx of the batch that stands for it today is not known, though it goes by it */
  readonly isUnread: boolean
  /** what becomes of the dose; null where it is the same batch, or does not go by °Bx */
  readonly otherwise: OtherBatch | null
}

/**
 * Which batch goes into each line that names a preparation, as the trial is made at its cost level.
 *
 * @param store  with all that the trial names, of today
 */
export function todaysBatches(trial: TrialRow, store: Store): readonly TodaysBatch[] {
  return trial.lines.flatMap((line, place): TodaysBatch[] => {
    const row = usedOn(line, trial.costLevelId)
    const part = row.preparationId === null ? undefined : store.get(refOf(row))
    if (!part?.pour) return []
    const { pour, discardAt } = part
    const before = batchOf(store, row.batchId)
    const dose = line.targetMg / 1000
    return [
      {
        key: String(line.position),
        line: place + 1,
        preparationId: pour.preparationId,
        name: pour.name,
        batch: pour.batch,
        discardAt,
        before,
        wasPoured: trial.frozenAt !== null,
        dose,
        ...byBrix(store, pour, before, dose),
      },
    ]
  })
}

/** A batch that goes into a glass, by the name of its preparation and its number. */
export interface PouredBatch {
  readonly name: string
  readonly number: number
}

/** Every batch that is poured straight into a trial today, whether its sheet names it or its preparation. */
export function batchesPoured(trial: TrialRow, store: Store): readonly PouredBatch[] {
  return trial.lines.flatMap((line): PouredBatch[] => {
    const part = store.get(refOf(usedOn(line, trial.costLevelId)))
    if (!part?.preparation || part.pour?.batch === null) return []
    return [{ name: part.preparation.name, number: Number(part.preparation.batch) }]
  })
}

/** What a line is made of at the cost level the trial is made at. */
export function usedOn<Row extends Named & { readonly alternatives: readonly (Named & { costLevelId: string })[] }>(
  line: Row,
  costLevelId: string | null,
): Named {
  return line.alternatives.find((one) => one.costLevelId === costLevelId) ?? line
}

function batchOf(store: Store, id: string | null): NamedBatch | null {
  const number = id === null ? undefined : store.get(`batch:${id}`)?.preparation?.batch
  return id === null || number === undefined ? null : { id, number: Number(number) }
}

function byBrix(store: Store, { batch, brix }: Pour, before: NamedBatch | null, dose: number) {
  const of = [before, batch].flatMap((one) => (one ? (store.get(`batch:${one.id}`)?.preparation ?? []) : []))
  return {
    byBrix: of.length > 0 && goesByBrix(of, brix),
    doseBrix: before ? brixOfBatch(store, before.id, brix) : brix,
    isUnread: batch !== null && isUnread(store, batch.id, brix),
    otherwise: batch && doseInOther(store, { dose, was: before?.id ?? null, now: batch.id, named: brix }),
  }
}

/**
 * A build as it is poured today: each line that names a preparation holds the batch that goes first, in grams that hold the
 * same sugar where that one is of another Brix. Nobody has tasted those; where they cannot be said the dose is not known.
 */
export function pouredToday(build: TrialBuild, batches: readonly TodaysBatch[], store: Store): TrialBuild {
  const byKey = new Map(batches.map((one) => [one.key, one]))
  return {
    ...build,
    lines: build.lines.map((line) => {
      const today = byKey.get(line.key)
      return today ? withBatch(line, today, store) : line
    }),
  }
}

/** As it hangs beside the bar for months: by preparation, where the sheet names no batch. */
export const namedByPreparation = (build: TrialBuild): TrialBuild => ({
  ...build,
  lines: build.lines.map((line) =>
    line.anyBatch && line.preparation ? { ...line, name: line.preparation.name } : line,
  ),
})

function withBatch(line: BuildLine, today: TodaysBatch, store: Store): BuildLine {
  const { preparationId, batch, before, otherwise: dose } = today
  const part = store.get(`preparation:${preparationId}`)
  // of a frozen trial the sheet of its day says how one is made where none is in date
  if (!part || batch === null || batch.id === before?.id) return line
  const { key, role, targetGrams, toleranceGrams, temperature, insteadOf } = line
  const grams = dose?.dose === 'corrected' ? dose.grams : dose?.dose === 'unknown' ? Number.NaN : targetGrams
  const made = lineOf(part, { key, role, targetGrams: grams, toleranceGrams, temperature, anyBatch: true })
  return { ...made, insteadOf }
}
