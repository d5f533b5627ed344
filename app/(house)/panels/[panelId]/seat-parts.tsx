import { ActForm } from '@/app/ui/act-form'
import { ChoiceField, TextField } from '@/app/ui/field'
import { addSeatsAction, changeSeatAction } from './actions'

/** @param opened  the mark of the seats there are */
export function AddSeatsPart({ panelId, opened }: { panelId: string; opened: string }) {
  return (
    <ActForm
      id="add-seats"
      action={addSeatsAction.bind(null, panelId)}
      opened={opened}
      submit="Add seats"
      submitLook="plain"
      className="content-start"
    >
      <TextField
        name="howMany"
        label="More seats"
        unit="seats"
        inputMode="numeric"
        help="Their orders go on where the others stopped. It is noted in the diary. Print their cards afterwards."
      />
    </ActForm>
  )
}

export function SeatChangePart({ panelId }: { panelId: string }) {
  return (
    <ActForm
      id="change-seat"
      action={changeSeatAction.bind(null, panelId)}
      submit="Note it"
      submitLook="plain"
      className="content-start"
    >
      <TextField name="seat" label="A seat has changed" unit="seat" inputMode="numeric" />
      <ChoiceField
        name="change"
        label="How"
        choices={[
          { value: 'paper', words: 'It goes on on paper', help: 'No phone is given it; you type its scores in.' },
          { value: 'left', words: 'Its taster has left', help: 'What was scored counts; nobody else gets the seat.' },
        ]}
      />
    </ActForm>
  )
}
