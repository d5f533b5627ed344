import { nameDaysMark } from '@/lib/tasks/opened-with'
import { ActForm } from '@/app/ui/act-form'
import { TextField } from '@/app/ui/field'
import { chooseNameDaysAction } from './actions'
import { nameDaysAsTyped } from './name-days-as-typed'

/** How long tasters' names are kept. A café from before this was asked has not chosen, and nothing goes until it does. */
export function NamesPart({ nameDays }: { nameDays: number | null }) {
  return (
    <div className="grid max-w-md gap-4">
      {nameDays === null && (
        <p>Nobody has chosen yet how long names of tasters are kept: so far they stay until somebody asks.</p>
      )}
      <ActForm
        id="name-days"
        action={chooseNameDaysAction}
        opened={nameDaysMark(nameDays)}
        defaults={nameDaysAsTyped(nameDays)}
        submit="Save"
        submitLook="plain"
      >
        <TextField
          name="nameDays"
          label="Forget a taster’s name after"
          unit="days"
          inputMode="numeric"
          required
          help="Counted from the day they took a seat; 0 keeps names until somebody asks. Names past their time go at once and do not come back. Scores stay."
        />
      </ActForm>
    </div>
  )
}
