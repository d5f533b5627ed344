import { TextField } from '@/app/ui/field'

const shows = 'Shows at least'

/** The two scales of a house; what is left empty is as usual: 0.1 g for doses, 1 g under the glass. */
export function ScaleFields() {
  return (
    <>
      <fieldset className="grid gap-4">
        <legend className="mb-3 text-l font-semibold">For doses: coffee, sweetener, spice</legend>
        <TextField name="doseName" label="Name" help="“Pocket scale”, “the one by the grinder”." />
        <TextField
          name="doseDivision"
          label={shows}
          unit="g"
          inputMode="decimal"
          help="Watch the last digit: 0.1 or 0.01. Left empty, 0.1 is assumed, and the name is not printed."
        />
      </fieldset>
      <fieldset className="grid gap-4">
        <legend className="mb-3 text-l font-semibold">Under the glass: milk, water, ice</legend>
        <TextField name="pourName" label="Name" />
        <TextField
          name="pourDivision"
          label={shows}
          unit="g"
          inputMode="decimal"
          help="Left empty, 1 is assumed. The same scale for both? Say it twice."
        />
      </fieldset>
    </>
  )
}
