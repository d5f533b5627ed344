import type { Member } from '@/lib/auth/guard'
import { cafeMark } from '@/lib/tasks/opened-with'
import { ActForm } from '@/app/ui/act-form'
import { allergenLists } from '@/app/ui/allergen-lists'
import { SelectField, TextField } from '@/app/ui/field'
import { changeCafeAction } from './actions'
import { cafeAsTyped } from './cafe-as-typed'

/** What the café is called, and what it counts by. */
export function CafePart({ cafe }: { cafe: Member['cafe'] }) {
  return (
    <ActForm
      id="cafe"
      action={changeCafeAction}
      opened={cafeMark(cafe)}
      defaults={cafeAsTyped(cafe)}
      submit="Save"
      className="max-w-md"
    >
      <TextField name="cafeName" label="Name of the café" required />
      <TextField
        name="currency"
        label="Currency"
        required
        help="Three letters: EUR, USD, PHP. Amounts already entered keep their figures: 3.50 stays 3.50, nothing is exchanged."
      />
      <SelectField name="allergenList" label="Which law’s list of allergens?" choices={allergenLists} />
      <TextField name="timeZone" label="Time zone" required help="A name like Europe/Lisbon or Asia/Manila." />
    </ActForm>
  )
}
