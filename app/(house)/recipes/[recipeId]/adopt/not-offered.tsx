import Link from 'next/link'
import { Notice } from '@/app/ui/notice'

interface ToMend {
  readonly id: string
  readonly number: number
  readonly name: string
  readonly toMend: string | null
}

/** Trials that cannot be frozen, and what each lacks. */
export function NotOffered({ trials }: { trials: readonly ToMend[] }) {
  if (trials.length === 0) return null
  return (
    <div className="my-3 grid max-w-prose gap-2">
      <Notice look="caution" word="Not offered">
        What cannot be worked out cannot be frozen. Mend these sheets first.
      </Notice>
      <ul className="grid list-disc gap-1 ps-5">
        {trials.map((trial) => (
          <li key={trial.id}>
            <Link href={`/trials/${trial.id}/edit`} prefetch={false}>
              {trial.number}. {trial.name}
            </Link>
            : {trial.toMend}
          </li>
        ))}
      </ul>
    </div>
  )
}
