import { ActForm } from '@/app/ui/act-form'
import { ButtonLink } from '@/app/ui/button'
import { Fold, Section } from '@/app/ui/page-frame'
import type { PanelReading } from '@/lib/tasks/plan/panel-reading'
import { seatsMark } from '@/lib/tasks/opened-with'
import type { Progress } from '@/lib/tasks/pour/read-progress'
import { callOffAction } from './actions'
import { JoinPart } from './join-part'
import { ListsPart } from './lists-part'
import { PlanParts } from './plan-parts'
import { AddSeatsPart } from './seat-parts'

/** First the jugs, then the trays, then one waits, and then one closes. */
export function OpenStageAct({ panel, progress }: { panel: PanelReading; progress: Progress | null }) {
  const opened = (list: string) => panel.listReaders.some((reader) => reader.list === list)
  const waiting = progress?.seats.some((seat) => seat.state === 'tasting' || seat.state === 'free') ?? true
  const here = `/panels/${panel.id}`
  if (!opened('filling')) return <ButtonLink href={`${here}/filling`}>Fill the jugs</ButtonLink>
  if (!opened('serving')) return <ButtonLink href={`${here}/serving`}>Serve the trays</ButtonLink>
  if (waiting) return <ButtonLink href={`${here}/watch`}>Watch the seats</ButtonLink>
  return <ButtonLink href={`${here}/close`}>Close the panel</ButtonLink>
}

export function OpenParts({
  panel,
  progress,
  zone,
  runs,
}: {
  panel: PanelReading
  progress: Progress | null
  zone: string
  runs: boolean
}) {
  const tasted = progress?.seats.some((seat) => seat.scored + seat.skipped > 0) ?? true
  return (
    <>
      {runs && <JoinPart panelId={panel.id} />}
      <ListsPart panel={panel} zone={zone} runs={runs} />
      {runs && (
        <Section title="Seats">
          <p className="mb-4 flex flex-wrap gap-3">
            <ButtonLink look="plain" href={`/panels/${panel.id}/watch`}>
              Watch the seats
            </ButtonLink>
            <ButtonLink look="plain" href={`/panels/${panel.id}/paper`}>
              Type in scores from paper
            </ButtonLink>
            <ButtonLink look="quiet" href={`/panels/${panel.id}/tasters`}>
              Tasters’ names
            </ButtonLink>
          </p>
          <AddSeatsPart panelId={panel.id} opened={seatsMark(panel.plan.seatCount)} />
        </Section>
      )}
      {runs && (
        <Section title="Closing">
          <p className="mb-3 max-w-prose">
            Closing is final: it shows which cup is which, and no score counts after it. Until then nobody here sees
            one.
          </p>
          <ButtonLink look="plain" href={`/panels/${panel.id}/close`}>
            Go to closing
          </ButtonLink>
        </Section>
      )}
      {runs && !tasted && <CallOffPart panelId={panel.id} />}
      <Fold words="The plan: question, cups, what tasters are told, amounts">
        <div className="grid gap-8 pt-2">
          <PlanParts panel={panel} />
        </div>
      </Fold>
    </>
  )
}

/** For a panel that was opened too early, or that nobody came to. */
function CallOffPart({ panelId }: { panelId: string }) {
  return (
    <Fold words="Call it off: nobody has tasted yet">
      <ActForm
        id="call-off"
        action={callOffAction.bind(null, panelId)}
        submit="Call the panel off"
        submitLook="stop"
        refused="Not called off"
      >
        <p className="max-w-prose">
          Its codes, cards and trays are void then, and it waits for nobody. It stays in the book as called off, its
          trials stay frozen, and its plan can be used again.
        </p>
      </ActForm>
    </Fold>
  )
}
