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

function FieldProblem({ id, words }: { readonly id: string; readonly words: readonly string[] | undefined }) {
  if (!words?.length) return null
  return (
    <p id={id} className="text-s font-semibold text-stop">
      {words.join(' ')}
    </p>
  )
}
