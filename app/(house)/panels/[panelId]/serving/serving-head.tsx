import type { ListHead } from '@/lib/tasks/pour/read-pouring-list'
import { Notice } from '@/app/ui/notice'

export function ServingHead({ head }: { head: ListHead }) {
  return (
    <div className="grid max-w-prose gap-3">
      <p>
        {head.sampleMl === null ? 'The same amount into every cup' : `${head.sampleMl} ml into every cup`}, by weight.
        Write the code on the cup, stand the cups on the tray from left to right as listed, and tick them off. The phone
        says “Seat 7”; tray 7 goes there.
      </p>
      <p>
        Spare: keep {head.spare} {head.spare === 1 ? 'portion' : 'portions'} of each jug covered and cold. A spilled cup
        is poured again from the same letter, under the same code.
      </p>
      {head.pouredTwice && (
        <Notice look="caution">
          Cups of one tray come from the same jug, so this list tells which are the same. Pour out of the tasters’
          sight, let no taster see the list or the jugs, and carry the trays without a word.
        </Notice>
      )}
      {head.seenThrough && (
        <Notice word="Partly blind">
          {head.seenThrough} can be seen.{' '}
          {head.mask === null ? 'Lids or dim light help.' : `Hide it, as planned: ${head.mask}.`}
        </Notice>
      )}
    </div>
  )
}
