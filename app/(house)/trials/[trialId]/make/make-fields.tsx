import { MAKE_COUNTS, type MakeForm } from '@/lib/forms/make-form'
import { Button } from '@/app/ui/button'
import { countWords } from './say-make'

/** How much: asked by address, so that a list can be kept, sent and printed again. */
export function MakeFields({ form: { typed, problems } }: { form: MakeForm }) {
  return (
    <form className="screen-only grid max-w-md gap-4">
      <fieldset className="grid gap-1">
        <legend className="font-semibold">Count in</legend>
        {MAKE_COUNTS.map((count) => (
          <label key={count} className="flex min-h-11 items-center gap-3">
            <input
              type="radio"
              name="count"
              value={count}
              defaultChecked={typed.count === count}
              className="size-5 accent-[var(--accent)]"
            />
            {countWords[count]}
          </label>
        ))}
      </fieldset>
      <NumberField name="amount" label="How many" typed={typed.amount} problem={problems.amount} />
      <NumberField name="spare" label="To spare" unit="%" typed={typed.spare} problem={problems.spare} />
      <div>
        <Button type="submit">Work it out</Button>
      </div>
    </form>
  )
}

interface NumberFieldProps {
  readonly name: string
  readonly label: string
  readonly unit?: string
  readonly typed: string
  readonly problem: string | undefined
}

function NumberField({ name, label, unit, typed, problem }: NumberFieldProps) {
  return (
    <div className="grid gap-1">
      <label htmlFor={name} className="font-semibold">
        {label}
        {unit && `, ${unit}`}
      </label>
      <input
        id={name}
        name={name}
        inputMode="decimal"
        defaultValue={typed}
        aria-invalid={problem ? true : undefined}
        aria-describedby={problem ? `${name}-problem` : undefined}
        className="min-h-11 w-full rounded border border-edge bg-raised px-3 py-2 text-end text-ink aria-[invalid=true]:border-2 aria-[invalid=true]:border-stop"
      />
      {problem && (
        <p id={`${name}-problem`} className="text-s font-semibold text-stop">
          {problem}
        </p>
      )}
    </div>
  )
}
