import type { ReactNode } from 'react'
import { ActForm } from '@/app/ui/act-form'
import { HiddenField } from '@/app/ui/field'
import { Section } from '@/app/ui/page-frame'
import type { Progress } from '@/lib/tasks/pour/read-progress'
import { changeSeatAction } from '../actions'
import { SetAsidePart, TakeBackIn } from '../set-aside-part'

/** What may be done about one seat of an open panel; about none before its row is pressed. */
export function SeatActs({ panelId, progress, chosen }: { panelId: string; progress: Progress; chosen: number }) {
  const seat = progress.seats.find(({ number }) => number === chosen)
  const aside = progress.seats.flatMap((one) => (one.aside === null ? [] : [one.number]))
  return (
    <div id="seat" className="scroll-mt-4">
      <TakeBackIn panelId={panelId} from="watch" seats={aside} />
      {seat ? (
        <Section title={`Seat ${seat.number}${seat.name ? `, ${seat.name}` : ''}`}>
          <div className="grid max-w-prose gap-6">
            <Change panelId={panelId} seat={seat.number} change="paper" submit="It goes on on paper">
              No phone is given it; you type its scores in.
            </Change>
            <Change panelId={panelId} seat={seat.number} change="left" submit="Its taster has left">
              What was scored counts; nobody else gets the seat.
            </Change>
            <SetAsidePart panelId={panelId} from="watch" seat={seat.number} />
          </div>
        </Section>
      ) : (
        <p className="max-w-prose text-soft">
          Press the number of a seat when its taster has left, goes on on paper, or cannot be trusted.
        </p>
      )}
    </div>
  )
}

function Change({
  panelId,
  seat,
  change,
  submit,
  children,
}: {
  panelId: string
  seat: number
  change: 'paper' | 'left'
  submit: string
  children: ReactNode
}) {
  return (
    <ActForm
      id={`seat-${change}`}
      action={changeSeatAction.bind(null, panelId)}
      submit={submit}
      submitLook="plain"
      refused="Not noted"
    >
      <HiddenField name="seat" value={String(seat)} />
      <HiddenField name="change" value={change} />
      <p className="text-soft">{children}</p>
    </ActForm>
  )
}
