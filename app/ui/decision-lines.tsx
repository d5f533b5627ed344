import Link from 'next/link'
import type { DecisionEvidence } from '@/lib/tasks/result/decision-evidence'
import { DemoMark } from './demo-mark'
import { EvidenceLines } from './evidence-lines'
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
  /** where the decision stands among those of other recipes */
  readonly recipe?: { readonly id: string; readonly name: string; readonly isDemo: boolean }
  /** what was on the table that day; null for decisions of before that was kept */
  readonly evidence: DecisionEvidence | null
}

/** The adoption that made the house recipe, in one sentence: what, when, by whom, on what evidence. */
export function whySentence(adopted: DecisionLine | null, zone: string): string {
  if (!adopted?.trial) return 'No trial has been adopted as house recipe yet.'
  const evidence = adopted.panel ? `after the panel “${adopted.panel.title}”` : 'without a panel'
  return `Trial ${adopted.trial.number}, ${adopted.trial.name}, was adopted by ${adopted.by} on ${sayDay(adopted.at, zone)} ${evidence}: “${adopted.reason}”`
}

/** @param brief  on a page about other things: of the evidence only the sentence, and which recipe it is about */
export function DecisionLines({
  decisions,
  zone,
  brief = false,
}: {
  decisions: readonly DecisionLine[]
  zone: string
  brief?: boolean
}) {
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
          {brief ? (
            decision.evidence?.sentence && <p className="text-s">The panel said: {decision.evidence.sentence}</p>
          ) : (
            <EvidenceLines evidence={decision.evidence} trialId={decision.trial?.id ?? null} />
          )}
          <p className="text-s text-soft">
            {decision.recipe && (
              <>
                <Link href={`/recipes/${decision.recipe.id}/why`} prefetch={false}>
                  {decision.recipe.name}
                </Link>
                {decision.recipe.isDemo && <DemoMark />}
                {' · '}
              </>
            )}
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
