import 'server-only'
import { findBatchesWithin } from '@/lib/db/batches'
import type { Db } from '@/lib/db/engine/client'
import { findShelf, type ShelfRow } from '@/lib/db/shelf'
import { brixOf } from '@/lib/drink/preparation'
import { readStore } from '../store/reach-store'
import type { Store } from '../store/store-part'

/** A batch as it stands at the bar. */
export interface ShelfBatch {
  readonly id: string
  readonly preparationId: string
  readonly name: string
  readonly number: number
  readonly madeAt: Date | null
  /** the earliest date of it and of what went in; null where nobody said one */
  readonly discardAt: Date | null
  /** °Bx, read or by weight; null where it is not known, or is no syrup */
  readonly brix: number | null
}

/** What is on the shelf of these preparations and not put aside, what must go first in front. */
export async function readShelf(
  db: Db,
  cafeId: string,
  now: Date,
  preparationIds: readonly string[],
): Promise<readonly ShelfBatch[]> {
  const rows = await findShelf(db, cafeId, preparationIds)
  const store = await readStore(
    db,
    cafeId,
    now,
    rows.map(({ id }) => `batch:${id}`),
  )
  const inside = await earliestInside(db, cafeId, rows)
  return rows
    .map((row) => ({
      id: row.id,
      preparationId: row.preparationId,
      name: row.preparation.name,
      number: row.number,
      madeAt: row.madeAt,
      discardAt: earliest([row.discardAt, inside.get(row.id) ?? null]),
      brix: brixOfBatch(store, row.id),
    }))
    .toSorted(
      (a, b) => (a.discardAt?.getTime() ?? Infinity) - (b.discardAt?.getTime() ?? Infinity) || a.number - b.number,
    )
}

/** The batch to pour: in date, what must go first. One without a date comes last, and one past its date never. */
export function toPour(shelf: readonly ShelfBatch[], preparationId: string, now: Date): ShelfBatch | null {
  const inDate = shelf.filter((one) => one.preparationId === preparationId && !(one.discardAt && one.discardAt <= now))
  return inDate[0] ?? null
}

export function brixOfBatch(store: Store, batchId: string): number | null {
  const preparation = store.get(`batch:${batchId}`)?.preparation
  if (preparation?.kind !== 'syrup') return null
  const brix = brixOf(preparation)
  return brix.missing.length > 0 ? null : brix.total
}

function earliest(dates: readonly (Date | null)[]): Date | null {
  return dates.reduce((first, date) => (date !== null && (first === null || date < first) ? date : first), null)
}

/** The earliest date of the batches that went into each, however deep. */
async function earliestInside(db: Db, cafeId: string, rows: readonly ShelfRow[]): Promise<ReadonlyMap<string, Date>> {
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
