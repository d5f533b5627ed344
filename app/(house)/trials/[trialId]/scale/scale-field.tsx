'use client'

import { useId } from 'react'

/** A number or a word beside the scale, with why it cannot be taken right under it: nothing that was typed is lost. */
export function ScaleField({
  label,
  unit,
  typed,
  problem = null,
  warning = null,
  type,
  words = false,
}: {
  readonly label: string
  readonly unit?: string
  readonly typed: string
  readonly problem?: string | null
  /** it can be taken, and something is to be said of it at once */
  readonly warning?: string | null
  readonly type: (typed: string) => void
  readonly words?: boolean
}) {
  const id = useId()
  return (
    <div className="grid gap-1">
      <label htmlFor={id} className="font-semibold">
        {label}
      </label>
      <span className="flex items-center gap-2">
        <input
          id={id}
          inputMode={words ? 'text' : 'decimal'}
          value={typed}
          onChange={(event) => type(event.target.value)}
          aria-invalid={problem !== null || undefined}
          aria-describedby={`${id}-problem`}
          autoComplete="off"
          className={`min-h-11 w-full rounded border border-edge bg-raised px-3 aria-[invalid=true]:border-2 aria-[invalid=true]:border-stop ${words ? '' : 'text-end'}`}
        />
        {unit && <span aria-hidden="true">{unit}</span>}
      </span>
      <p id={`${id}-problem`} role="alert" className="text-s font-semibold text-stop empty:hidden">
        {problem}
      </p>
      {problem === null && (
        <p role="status" className="text-s font-semibold text-caution empty:hidden">
          {warning}
        </p>
      )}
    </div>
  )
}
