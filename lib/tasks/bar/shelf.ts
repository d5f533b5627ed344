import 'server-only'
import type { Db, Tx } from '@/lib/db/engine/client'
import { findStanding, firstInDate } from '../store/in-date'

/** A batch as it stands at the bar. */
export interface ShelfBatch {
  readonly id: string
  readonly preparationId: string
  readonly name: string
  readonly number: number
  readonly madeAt: Date | null
  /** the earliest date of it and of what went in; null where nobody said one */
  readonly discardAt: Date | null
  /** mg that were left when somebody last counted, and when; null where nobody did */
  readonly shelfMg: number | null
  readonly shelfAt: Date | null
}

/** What is on the shelf of these preparations and not put aside, what must go first in front. */
export async function readShelf(
  db: Db | Tx,
  cafeId: string,
  preparationIds: readonly string[],
): Promise<readonly ShelfBatch[]> {
  const standing = await findStanding(db, cafeId, preparationIds)
  return standing.map(({ id, preparationId, preparation, number, madeAt, discardAt, shelfMg, shelfAt }) => {
    return { id, preparationId, name: preparation.name, number, madeAt, discardAt, shelfMg, shelfAt }
  })
}

/** The batch to pour: in date, what must go first. One without a date comes last, and one past its date never. */
export const toPour = (shelf: readonly ShelfBatch[], preparationId: string, now: Date): ShelfBatch | null =>
  firstInDate(shelf, preparationId, now)
