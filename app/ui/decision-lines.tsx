import Link from 'next/link'
import { Moment, sayDay } from './moment'

export interface DecisionLine {
  readonly id: string
  readonly kind: string
  readonly version: number | null
  readonly reason: string
  readonly at: Date
  readonly by: string
  readonly trial: { readonly id: string; readonly number: number; readonly name: string } | null
  readonly panel: { readonly id: string; readonly title: string } | null
}

/** The adoption that made the house recipe, in one sentence: what, when, by whom, on what evidence. */
export function whySentence(adopted: DecisionLine | null, zone: string): string {
  if (!adopted?.trial) return 'No trial has been adopted as house recipe yet.'
  const evidence = adopted.panel ? `after the panel “${adopted.panel.title}”` : 'without a panel'
  return `Trial ${adopted.trial.number}, ${adopted.trial.name}, was adopted by ${adopted.by} on ${sayDay(adopted.at, zone)} ${evidence}: “${adopted.reason}”`
}

export function DecisionLines({ decisions, zone }: { decisions: readonly DecisionLine[]; zone: string }) {
  return (
    <ol className="divide-y divide-line rounded border border-line bg-raised">
      {decisions.map((decision) => (
        <li key={decision.id} className="grid gap-1 px-4 py-3">
          <p>
            <strong className="font-semibold">{sayKind(decision)}</strong>
            {decision.trial && (
              <>
                {' '}
                <Link href={`/trials/${decision.trial.id}`} prefetch={false}>
                  Trial {decision.trial.number}, {decision.trial.name}
                </Link>
              </>
            )}
          </p>
          <p>“{decision.reason}”</p>
          <p className="text-s text-soft">
            {decision.by}, <Moment at={decision.at} zone={zone} />
            {' · '}
            {decision.panel ? (
              <Link href={`/panels/${decision.panel.id}/result`} prefetch={false}>
                {decision.panel.title}
              </Link>
            ) : (
              'without a panel'
            )}
          </p>
        </li>
      ))}
    </ol>
  )
}

function sayKind(decision: DecisionLine): string {
  if (decision.kind === 'adopt') return `Adopted as house recipe ${decision.version ?? ''}:`.replace(' :', ':')
  return decision.kind === 'keep' ? 'Kept the present one:' : 'To be tested again.'
}
