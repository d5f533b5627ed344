import Link from 'next/link'
import { plain } from '@/lib/base/number-format'
import { ButtonLink } from '@/app/ui/button'
import { Mark } from '@/app/ui/trial-tree'
import { Moment } from '@/app/ui/moment'

interface Batch {
  readonly id: string
  readonly number: number
  readonly madeAt: Date | null
  readonly discardAt: Date | null
  readonly outputMg: number | null
  readonly frozenAt: Date | null
  readonly archivedAt: Date | null
}

export function BatchLines({
  batches,
  here,
  zone,
  now,
}: {
  batches: readonly Batch[]
  here: string
  zone: string
  now: Date
}) {
  return (
    <ul className="divide-y divide-line rounded border border-line bg-raised">
      {batches.map((batch) => (
        <li key={batch.id} className="flex flex-wrap items-baseline gap-x-4 px-4 py-2">
          <Link href={`${here}/batches/${batch.id}`} prefetch={false} className="inline-block py-1 font-semibold">
            Batch {batch.number}
          </Link>
          <span className="text-soft">
            {batch.outputMg === null ? 'not weighed yet' : `${plain(batch.outputMg / 1000, 1)} g`}
            {batch.madeAt && (
              <>
                {', made '}
                <Moment at={batch.madeAt} zone={zone} day />
              </>
            )}
          </span>
          {batch.discardAt && (
            <span className={batch.discardAt < now ? 'font-semibold text-stop' : 'text-soft'}>
              {batch.discardAt < now ? 'past its discard date, ' : 'discard '}
              <Moment at={batch.discardAt} zone={zone} />
            </span>
          )}
          {batch.frozenAt && <Mark words="poured" />}
          {batch.archivedAt && <Mark words="put aside" />}
        </li>
      ))}
    </ul>
  )
}

export function EarlierBatches({ here, before }: { here: string; before: number }) {
  return (
    <ButtonLink look="plain" href={`${here}?before=${before}`}>
      Earlier batches
    </ButtonLink>
  )
}
