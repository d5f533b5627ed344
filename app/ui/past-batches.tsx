import type { PastBatch } from '@/lib/tasks/store/past-batches'
import { sayMoment } from './moment'
import { Notice } from './notice'

/**
 * Batches that ought to have been thrown away, wherever somebody is about to pour them. A sheet names the batch it was weighed
 * with for ever, so what is said is which one may not be used, and not that the drink cannot be made.
 */
export function PastBatches({ past, zone }: { past: readonly PastBatch[]; zone: string }) {
  const said = new Set(
    past.map(({ name, discardAt }) => `${name} was to be thrown away by ${sayMoment(discardAt, zone)}.`),
  )
  if (said.size === 0) return null
  return (
    <Notice look="caution" word="Past its date">
      {[...said].join(' ')} Never use what is left of it: pour one that is in date, or make one. Smell and look do not
      tell.
    </Notice>
  )
}
