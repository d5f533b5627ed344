import { ButtonLink } from '@/app/ui/button'
import { Fold, Section } from '@/app/ui/page-frame'
import { Moment } from '@/app/ui/moment'
import type { PanelReading } from '@/lib/tasks/plan/panel-reading'
import { mayOpen } from './may-open'
import { discardAction } from '../actions'
import { PlanParts } from './plan-parts'
import { ActButton } from '@/app/ui/act-button'

/** Opening is the one next act of a draft, and only of one that holds together; its own page asks once more. */
export function OpenAct({ panel }: { panel: PanelReading }) {
  const fits = panel.problems.length === 0 && panel.looks.length === 0
  const toMend = fits && panel.cups.find((cup) => cup.toMend !== null)
  const unread = panel.cups.flatMap((cup) => cup.unread)[0]
  const mend = toMend || (fits && unread)
  const change = (
    <ButtonLink look={mayOpen(panel) || mend ? 'plain' : 'main'} href={`/panels/${panel.id}/plan`}>
      Change the plan
    </ButtonLink>
  )
  if (toMend) {
    return (
      <>
        <ButtonLink href={`/trials/${toMend.trialId}/edit`}>Mend {toMend.trialName}</ButtonLink>
        {change}
      </>
    )
  }
  if (fits && unread) {
    return (
      <>
        <ButtonLink href={unread.id ? `/store/ingredients/${unread.id}` : '/store'}>
          Read the label of {unread.name}
        </ButtonLink>
        {change}
      </>
    )
  }
  if (!mayOpen(panel)) return change
  return (
    <>
      <ButtonLink href={`/panels/${panel.id}/open`}>Open the panel</ButtonLink>
      {change}
    </>
  )
}

export function DraftParts({ panel, zone, runs }: { panel: PanelReading; zone: string; runs: boolean }) {
  return (
    <>
      <PlanParts panel={panel} />
      <Section title="Before the tasters come">
        <p className="max-w-prose">
          {panel.phoneReachedAt ? (
            <>
              A phone reached this computer on <Moment at={panel.phoneReachedAt} zone={zone} />.
            </>
          ) : (
            'No phone has reached this computer for this panel yet.'
          )}
        </p>
        {runs && (
          <ButtonLink look="plain" className="mt-3" href={`/panels/${panel.id}/phones`}>
            Try it with a phone
          </ButtonLink>
        )}
      </Section>
      {runs && (
        <Fold words="Discard this draft">
          <p className="mb-3 max-w-prose">Nothing was poured yet, so the plan can go for good. Its trials stay.</p>
          <ActButton look="stop" action={discardAction.bind(null, panel.id)} words="Discard the draft" />
        </Fold>
      )}
    </>
  )
}
