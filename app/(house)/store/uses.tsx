import Link from 'next/link'
import { Section } from '@/app/ui/page-frame'

interface Trial {
  readonly id: string
  readonly number: number
  readonly name: string
  readonly recipe: { readonly name: string }
}

interface Batch {
  readonly id: string
  readonly number: number
  readonly preparation: { readonly id: string; readonly name: string }
}

/** Everything a thing of the store stands in: what it would be missed from. */
export function UsesSection({
  trials,
  batches,
  more,
}: {
  trials: readonly Trial[]
  batches: readonly Batch[]
  /** how many older ones are not named */
  more: number
}) {
  const none = trials.length + batches.length === 0
  return (
    <Section title="Used in">
      {none && <p className="text-soft">Nothing yet.</p>}
      <ul className="grid gap-1">
        {batches.map((batch) => (
          <li key={batch.id}>
            <Link
              href={`/store/preparations/${batch.preparation.id}/batches/${batch.id}`}
              prefetch={false}
              className="inline-block py-1"
            >
              {batch.preparation.name}, batch {batch.number}
            </Link>
          </li>
        ))}
        {trials.map((trial) => (
          <li key={trial.id}>
            <Link href={`/trials/${trial.id}`} prefetch={false} className="inline-block py-1">
              {trial.recipe.name}: trial {trial.number}, {trial.name}
            </Link>
          </li>
        ))}
      </ul>
      {more > 0 && <p className="text-soft">And {more} more, made earlier.</p>}
    </Section>
  )
}
