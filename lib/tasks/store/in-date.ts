import 'server-only'
import { findBatchesWithin, type BatchRow } from '@/lib/db/batches'
import type { Db, Tx } from '@/lib/db/engine/client'
import { findPacksOpenBetween, type PackSpan } from '@/lib/db/packs'
import { findShelf, type ShelfRow } from '@/lib/db/shelf'
import { innermostFirst } from '@/lib/drink/nesting'

/** A batch that is not put aside, and when it must be gone. */
export type Standing = Omit<ShelfRow, 'discardAt'> & {
  /** the earliest date of it, of what went in, and of packs open when it was made; null where nobody said one */
  readonly discardAt: Date | null
}

/** What stands of these preparations, what must go first in front; one without a date comes last. */
export async function findStanding(
  db: Db | Tx,
  cafeId: string,
  preparationIds: readonly string[],
): Promise<readonly Standing[]> {
  const rows = await findShelf(db, cafeId, preparationIds)
  const within = await findBatchesWithin(
    db,
    cafeId,
    rows.map(({ id }) => id),
  )
  const dates = await discardDates(db, cafeId, within)
  return rows
    .map((row) => ({ ...row, discardAt: dates.get(row.id) ?? null }))
    .toSorted(
      (a, b) => (a.discardAt?.getTime() ?? Infinity) - (b.discardAt?.getTime() ?? Infinity) || a.number - b.number,
    )
}

/** The batch to pour: in date, what must go first. One past its date never. */
export function firstInDate<Batch extends { readonly preparationId: string; readonly discardAt: Date | null }>(
  standing: readonly Batch[],
  preparationId: string,
  now: Date,
): Batch | null {
  return standing.find((one) => one.preparationId === preparationId && isInDate(one, now)) ?? null
}

export const isInDate = ({ discardAt }: { readonly discardAt: Date | null }, now: Date): boolean =>
  !(discardAt && discardAt <= now)

function earliest(dates: readonly (Date | null)[]): Date | null {
  return dates.reduce((first, date) => (date !== null && (first === null || date < first) ? date : first), null)
}

/**
 * When each batch must be gone: the earliest date of it, of the batches in it, however deep, and of packs that stood open when
 * it or one of those was made. Which pack went in nobody said, so every open one counts.
 *
 * @param rows  with every batch that is in them
 * @returns     by id; none where nobody said one
 */
export async function discardDates(
  db: Db | Tx,
  cafeId: string,
  rows: readonly BatchRow[],
): Promise<ReadonlyMap<string, Date>> {
  const byId = new Map(rows.map((row) => [row.id, row]))
  const packs = await packsOf(db, cafeId, rows)
  const { order } = innermostFirst(byId.keys(), (id) =>
    (byId.get(id)?.inputs ?? []).flatMap(({ inputBatchId }) => inputBatchId ?? []),
  )
  const found = new Map<string, Date>()
  for (const id of order) {
    const row = byId.get(id)
    if (!row) continue
    const inside = row.inputs.map(({ inputBatchId }) => found.get(inputBatchId ?? '') ?? null)
    const date = earliest([row.discardAt, ...inside, ...packsAt(row, packs)])
    if (date) found.set(id, date)
  }
  return found
}

/** Dates of packs that stood open when a batch was made; of one whose making nobody dated nothing can be said. */
function packsAt({ madeAt, inputs }: BatchRow, packs: readonly PackSpan[]): readonly (Date | null)[] {
  if (madeAt === null) return []
  const used = new Set(inputs.flatMap(({ ingredientId }) => ingredientId ?? []))
  return packs
    .filter(({ ingredientId }) => used.has(ingredientId))
    .filter(({ openedAt, doneAt }) => openedAt <= madeAt && (doneAt === null || doneAt >= madeAt))
    .map(({ discardAt }) => discardAt)
}

async function packsOf(db: Db | Tx, cafeId: string, rows: readonly BatchRow[]): Promise<readonly PackSpan[]> {
  const made = rows.flatMap(({ madeAt }) => madeAt?.getTime() ?? [])
  if (made.length === 0) return []
  const used = new Set(rows.flatMap(({ inputs }) => inputs.flatMap(({ ingredientId }) => ingredientId ?? [])))
  const between = { from: new Date(Math.min(...made)), until: new Date(Math.max(...made)) }
  return findPacksOpenBetween(db, cafeId, used, between)
}
