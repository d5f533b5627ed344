import { ActButton } from '@/app/ui/act-button'
import { ActForm } from '@/app/ui/act-form'
import { HiddenField, TextField } from '@/app/ui/field'
import { setAsideAction, takeBackInAction, type AsideFrom } from './aside-actions'

const sayWhat: Readonly<Record<AsideFrom, string>> = {
  watch:
    'No further score of it is taken, nobody else gets it, and the result is read without it; the reading with it stands beside.',
  result: 'Scores can be read by now, so it stays in what the panel claims; the reading without it stands beside.',
}

/**
 * A seat whose scores the house does not trust: a reason in words, and what becomes of it.
 *
 * @param seat  the one that was chosen already; without it its number is typed
 */
export function SetAsidePart({ panelId, from, seat }: { panelId: string; from: AsideFrom; seat?: number }) {
  return (
    <ActForm
      id="set-aside"
      action={setAsideAction.bind(null, panelId, from)}
      submit="Set it aside"
      submitLook="plain"
      refused="Not set aside"
      className="max-w-prose content-start"
    >
      {seat === undefined ? (
        <TextField name="seat" label="Seat to set aside" unit="seat" inputMode="numeric" />
      ) : (
        <HiddenField name="seat" value={String(seat)} />
      )}
      <TextField
        name="why"
        label={seat === undefined ? 'Why' : `Why seat ${seat} is set aside`}
        help="It stands here, on the result, in its files and in the diary, so leave names out."
      />
      <p className="text-s text-soft">{sayWhat[from]}</p>
    </ActForm>
  )
}

export function TakeBackIn({ panelId, from, seats }: { panelId: string; from: AsideFrom; seats: readonly number[] }) {
  if (seats.length === 0) return null
  return (
    <ul className="flex flex-wrap gap-2">
      {seats.map((seat) => (
        <li key={seat}>
          <ActButton
            look="plain"
            action={takeBackInAction.bind(null, panelId, from, seat)}
            words={`Take seat ${seat} back in`}
          />
        </li>
      ))}
    </ul>
  )
}
