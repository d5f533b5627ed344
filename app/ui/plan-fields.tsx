'use client'

import { useField } from '@conform-to/react'
import type { ReactNode } from 'react'

export interface TrialChoice {
  readonly id: string
  readonly name: string
  readonly number: number
  readonly isHouse: boolean
}

/** The trials one may pour, each a target for a thumb; the house recipe stands first. */
export function CupsField({ trials, help }: { readonly trials: readonly TrialChoice[]; readonly help: ReactNode }) {
  const [field] = useField<string[]>('cups')
  const chosen = [field.initialValue ?? []].flat()
  return (
    <fieldset aria-describedby={`${field.descriptionId} ${field.errorId}`} className="grid gap-1">
      <legend className="font-semibold">Which trials</legend>
      <p id={field.descriptionId} className="mb-1 text-s text-soft">
        {help}
      </p>
      {trials.map((trial) => (
        <label
          key={trial.id}
          className="flex min-h-11 items-start gap-3 rounded border border-line bg-raised px-3 py-2 has-checked:border-accent"
        >
          <input
            type="checkbox"
            name="cups"
            value={trial.id}
            defaultChecked={chosen.includes(trial.id)}
            aria-invalid={field.errors ? true : undefined}
            className="mt-0.5 size-5 shrink-0 accent-[var(--accent)]"
          />
          <span className="flex grow flex-wrap justify-between gap-x-4">
            <span>
              {trial.name}
              {trial.isHouse && <strong className="ms-2 font-semibold text-accent">house recipe</strong>}
            </span>
            <span className="text-soft">trial {trial.number}</span>
          </span>
        </label>
      ))}
      <FieldProblem id={field.errorId} words={field.errors} />
    </fieldset>
  )
}

/** Up to five names in one group: what is asked of each cup beside overall liking. */
export function AspectsField({ places }: { readonly places: number }) {
  const [field] = useField<string[]>('aspects')
  const typed = [field.initialValue ?? []].flat()
  return (
    <fieldset className="grid gap-2" aria-describedby={field.errors ? field.errorId : undefined}>
      <legend className="font-semibold">Further aspects</legend>
      <p className="text-s text-soft">
        Overall liking is always asked. Each further aspect is one more screen per cup, on the same nine steps:
        sweetness, coffee taste, aftertaste. Two are plenty.
      </p>
      <div className="grid gap-2 sm:grid-cols-2">
        {Array.from({ length: places }, (_, at) => (
          <input
            key={at}
            name={`aspects[${at}]`}
            defaultValue={typed[at] ?? ''}
            aria-label={`Aspect ${at + 1}`}
            aria-invalid={field.errors ? true : undefined}
            className="min-h-11 w-full rounded border border-edge bg-raised px-3 py-2 text-ink aria-[invalid=true]:border-2 aria-[invalid=true]:border-stop"
          />
        ))}
      </div>
      <FieldProblem id={field.errorId} words={field.errors} />
    </fieldset>
  )
}

function FieldProblem({ id, words }: { readonly id: string; readonly words: readonly string[] | undefined }) {
  if (!words?.length) return null
  return (
    <p id={id} className="text-s font-semibold text-stop">
      {words.join(' ')}
    </p>
  )
}
