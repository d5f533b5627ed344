import 'server-only'
import type { Store } from './store-part'

/** A batch that ought to have been thrown away, and since when. */
export interface PastBatch {
  readonly name: string
  readonly discardAt: Date
}

/** Those of these parts that are batches past their date, each once, in the order they are poured. */
export function pastBatches(store: Store, refs: readonly string[], now: Date): readonly PastBatch[] {
  return [...new Set(refs)].flatMap((ref) => {
    const { name, discardAt } = store.get(ref) ?? { name: '', discardAt: null }
    return discardAt !== null && discardAt < now ? [{ name, discardAt }] : []
  })
}
