import type { PastBatch } from '@/lib/tasks/store/past-batches'
import { sayMoment } from './moment'
import { Notice } from './notice'

interface Props {
  readonly past: readonly PastBatch[]
  /** names of batches of which nobody wrote down a date */
  readonly undated?: readonly string[]
  readonly zone: string
}

/**
 * Batches that ought to have been thrown away, wherever somebody is about to pour them, and those that nobody dated. A sheet
 * names the batch it was weighed with for ever, so what is said is which one may not be used, and not that the drink cannot be
 * made.
 */
export function PastBatches({ past, undated = [], zone }: Props) {
  const said = new Set(
    past.map(({ name, discardAt }) => `${name} was to be thrown away by ${sayMoment(discardAt, zone)}.`),
  )
  return (
    <>
      {said.size > 0 && (
        <Notice look="caution" word="Past its date">
          {[...said].join(' ')} Never use what is left of it: pour one that is in date, or make one. Smell and look do
          not tell.
        </Notice>
      )}
      {undated.length > 0 && (
        <Notice look="caution" word="Date not known">
          {undated.join('; ')}: nobody wrote down when it must be gone. {askDate}
        </Notice>
      )}
    </>
  )
}

/** What to do about a bottle without a date: the same words wherever it is poured. */
export const askDate = 'Look at the bottle and ask who made it; without an answer it goes.'
