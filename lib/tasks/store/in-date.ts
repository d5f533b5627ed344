import 'server-only'
import { findBatchesWithin } from '@/lib/db/batches'
import type { Db, Tx } from '@/lib/db/engine/client'
import { findShelf, type ShelfRow } from '@/lib/db/shelf'

/** A batch that is not put aside, and when it must be gone. */
export type Standing = Omit<ShelfRow, 'discardAt'> & {
  /** the earliest date of it and of what went in; null where nobody said one */
  readonly discardAt: Date | null
}

/** What stands of these preparations, what must go first in front; one without a date comes last. */
export async function findStanding(
  db: Db | Tx,
  cafeId: string,
  preparationIds: readonly string[],
): Promise<readonly Standing[]> {
  const rows = await findShelf(db, cafeId, preparationIds)
  const inside = await earliestInside(db, cafeId, rows)
  return rows
    .map((row) => ({ ...row, discardAt: earliest([row.discardAt, inside.get(row.id) ?? null]) }))
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

/** The earliest date of the batches that went into each, however deep. */
async function earliestInside(
  db: Db | Tx,
  cafeId: string,
  rows: readonly ShelfRow[],
): Promise<ReadonlyMap<string, Date>> {
  const all = await findBatchesWithin(
    db,
    cafeId,
    rows.map(({ id }) => id),
  )
  const byId = new Map(all.map((row) => [row.id, row]))
  const found = new Map<string, Date>()
  for (const { id } of rows) {
    const seen = new Set([id])
    const toSee = [id]
    for (let at = toSee.pop(); at !== undefined; at = toSee.pop()) {
      for (const { inputBatchId } of byId.get(at)?.inputs ?? []) {
        if (inputBatchId === null || seen.has(inputBatchId)) continue
        seen.add(inputBatchId)
        toSee.push(inputBatchId)
      }
    }
    seen.delete(id)
    const date = earliest([...seen].map((inner) => byId.get(inner)?.discardAt ?? null))
    if (date) found.set(id, date)
  }
  return found
}
