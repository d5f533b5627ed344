import { ActButton } from '@/app/ui/act-button'
import { ButtonLink } from '@/app/ui/button'
import { Moment } from '@/app/ui/moment'
import { Fold, Section } from '@/app/ui/page-frame'
import type { PanelReading } from '@/lib/tasks/plan/panel-reading'
import { testAgainAction } from '../actions'
import { PlanParts } from './plan-parts'

export function OverAct({ panel, runs }: { panel: PanelReading; runs: boolean }) {
  return (
    <>
      {panel.stage !== 'called-off' && <ButtonLink href={`/panels/${panel.id}/result`}>Read the result</ButtonLink>}
      {runs && (
        <ButtonLink look="quiet" href={`/panels/${panel.id}/tasters`}>
          Tasters’ names
        </ButtonLink>
      )}
      {runs && (
        <ActButton
          look="plain"
          action={testAgainAction.bind(null, panel.id)}
          words={panel.stage === 'called-off' ? 'Plan it again' : 'Test again'}
        />
      )}
    </>
  )
}

/** What happened, in order; the plan as it was poured. */
export function OverParts({ panel, zone }: { panel: PanelReading; zone: string }) {
  const moments = [
    { words: 'Planned', at: panel.createdAt, by: panel.plannedBy },
    { words: 'Opened', at: panel.openedAt, by: panel.openedBy },
    ...panel.listReaders.map((one) => ({
      words: one.list === 'filling' ? 'Filling list opened' : 'Serving list opened',
      at: one.at,
      by: one.name,
    })),
    { words: 'Closed and unblinded', at: panel.closedAt, by: panel.closedBy },
    { words: 'Called off', at: panel.calledOffAt, by: panel.calledOffBy },
  ]
  return (
    <>
      <Section title="What happened">
        <ol className="grid gap-1">
          {moments.map(({ words, at, by }, order) =>
            at ? (
              <li key={order}>
                {words} <Moment at={at} zone={zone} className="text-soft" />
                {by && <span className="text-soft"> by {by}</span>}
              </li>
            ) : null,
          )}
        </ol>
      </Section>
      <Fold
        words={`${panel.stage === 'called-off' ? 'The plan' : 'The plan as it was poured'}: question, cups, what tasters were told, amounts`}
      >
        <div className="grid gap-8 pt-2">
          <PlanParts panel={panel} />
        </div>
      </Fold>
    </>
  )
}
