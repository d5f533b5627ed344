import 'server-only'
import { comparedBrix, doseFromOtherBatch, goesByBrix, type OtherBatch } from '@/lib/drink/other-batch'
import type { Store } from './store-part'

/** °Bx that a batch is compared by; null where it is not known, and of what does not go by °Bx. */
export function brixOfBatch(store: Store, batchId: string, named: number | null = null): number | null {
  const preparation = store.get(`batch:${batchId}`)?.preparation
  return preparation && goesByBrix([preparation], named) ? comparedBrix(preparation) : null
}

/** Two batches of one preparation, and the dose that was written for the first of them. */
interface Swap {
  /** g, above 0 */
  readonly dose: number
  /** null: written for no batch; then its formula's °Bx counts, where it names one */
  readonly was: string | null
  readonly now: string
  /** °Bx of the formula */
  readonly named: number | null
}

/** What becomes of a dose in another batch; null where it stays by itself: the same batch, or no sugar to go by. */
export function doseInOther(store: Store, { dose, was, now, named }: Swap): OtherBatch | null {
  if (was === now || !(dose > 0) || (was === null && named === null)) return null
  const batches = [was, now].flatMap((id) => (id === null ? [] : (store.get(`batch:${id}`)?.preparation ?? [])))
  if (!goesByBrix(batches, named)) return null
  return doseFromOtherBatch(dose, was === null ? named : brixOfBatch(store, was, named), brixOfBatch(store, now, named))
}

/** Does the preparation go by °Bx, and is that of this batch not known? */
export function isUnread(store: Store, batchId: string, named: number | null): boolean {
  const preparation = store.get(`batch:${batchId}`)?.preparation
  return (
    preparation !== null &&
    preparation !== undefined &&
    goesByBrix([preparation], named) &&
    comparedBrix(preparation) === null
  )
}
