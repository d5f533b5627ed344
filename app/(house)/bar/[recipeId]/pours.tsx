import { fixed } from '@/lib/base/number-format'
import type { Pour } from '@/lib/tasks/bar/read-bar-recipe'
import { sayMoment } from '@/app/ui/moment'
import { Notice } from '@/app/ui/notice'
import { askDate } from '@/app/ui/past-batches'

/** Which bottle stands for each preparation today: in date, what must go first; and what to do where it reads otherwise. */
export function Pours({ pours, zone }: { pours: readonly Pour[]; zone: string }) {
  return (
    <div className="grid gap-3 empty:hidden">
      {pours.map(({ key, name, batch, otherwise, isUnread }) => (
        <Notice key={key} look={batch?.discardAt && !otherwise && !isUnread ? 'note' : 'caution'} word={name}>
          {batch
            ? `pour batch ${batch.number}${batch.discardAt ? `, good until ${sayMoment(batch.discardAt, zone)}` : ', its date not known'}.${batch.discardAt ? '' : ` ${askDate}`}`
            : 'no batch is in date. Make one first; what is past its date is never used.'}
          {isUnread &&
            ' It is another batch than the recipe was settled with, and the °Bx of one of them is not known: read or weigh it before it is poured.'}
          {otherwise &&
            ` It reads ${fixed(otherwise.reads, 1)} °Bx, and the recipe was settled with ${fixed(otherwise.settled, 1)}: ${fixed(otherwise.grams, 1)} g in the place of ${fixed(otherwise.dose, 1)} g hold the same sugar. Nobody has tasted that.`}
        </Notice>
      ))}
    </div>
  )
}
