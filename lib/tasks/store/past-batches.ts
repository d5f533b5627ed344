import 'server-only'
import type { Store } from './store-part'

/** A batch, or an opened pack, that ought to have been thrown away, and since when. */
export interface PastBatch {
  readonly name: string
  readonly discardAt: Date
}

/** Batches among these parts of which nobody wrote down when they must be gone: to be asked about, never taken for in date. */
export function undatedBatches(store: Store, refs: readonly string[]): readonly string[] {
  return [...new Set(refs)].flatMap((ref) => {
    const part = store.get(ref)
    return part && ref.startsWith('batch:') && part.discardAt === null ? [part.name] : []
  })
}

/** Those of these parts that are past their date, batches and opened packs, each once, in the order they are poured. */
export function pastBatches(store: Store, refs: readonly string[], now: Date): readonly PastBatch[] {
  return [...new Set(refs)].flatMap((ref) => {
    const part = store.get(ref)
    if (!part) return []
    const own = part.discardAt === null ? [] : [{ name: part.name, discardAt: part.discardAt }]
    const packs = part.packs.map(({ mark, discardAt }) => ({
      name: `${part.name}, opened pack${mark === null ? '' : ` ${mark}`}`,
      discardAt,
    }))
    return [...own, ...packs].filter(({ discardAt }) => discardAt < now)
  })
}
