import 'server-only'
import { brixOf } from '@/lib/drink/preparation'
import type { Store } from './store-part'

/** °Bx of a batch of a syrup, read or by weight; null where it is not known, and of what is no syrup. */
export function brixOfBatch(store: Store, batchId: string): number | null {
  const preparation = store.get(`batch:${batchId}`)?.preparation
  if (preparation?.kind !== 'syrup') return null
  const brix = brixOf(preparation)
  return brix.missing.length > 0 ? null : brix.total
}
