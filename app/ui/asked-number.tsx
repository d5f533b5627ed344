interface Props {
  readonly name: string
  readonly label: string
  readonly unit?: string
  readonly typed: string
  readonly problem: string | undefined
  /** beside the field, of what could stand in it */
  readonly hint?: string | undefined
}

/** A number that a page is asked for by its address, with why it was not taken. */
export function AskedNumber({ name, label, unit, typed, problem, hint }: Props) {
  const about = [...(hint ? [`${name}-hint`] : []), ...(problem ? [`${name}-problem`] : [])]
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
        aria-describedby={about.length > 0 ? about.join(' ') : undefined}
        className="min-h-11 w-full rounded border border-edge bg-raised px-3 py-2 text-end text-ink aria-[invalid=true]:border-2 aria-[invalid=true]:border-stop"
      />
      {hint && (
        <p id={`${name}-hint`} className="text-s text-soft">
          {hint}
        </p>
      )}
      {problem && (
        <p id={`${name}-problem`} className="text-s font-semibold text-stop">
          {problem}
        </p>
      )}
    </div>
  )
}
