import { ActForm } from '@/app/ui/act-form'
import { TextField } from '@/app/ui/field'
import { addSeatsAction } from './actions'

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
