import { AreaField, ChoiceField, TextField } from '@/app/ui/field'
import { DoseFields } from '../dose-fields'
import { preparationChoices } from '../say-store'

export function PreparationFields() {
  return (
    <>
      <TextField name="name" label="Name" required help="As its bottle is labelled." />
      <ChoiceField name="kind" label="What it is" choices={preparationChoices} />
      <TextField
        name="storage"
        label="Kept at"
        unit="°C"
        inputMode="decimal"
        help="A syrup may crystallise when it is cold."
      />
      <TextField
        name="keepsHours"
        label="The house keeps it for"
        unit="h"
        inputMode="decimal"
        help="Your own limit: 168 hours is seven days. Local food-safety rules may ask for less."
      />
      <DoseFields />
      <AreaField name="note" label="Note" />
    </>
  )
}
