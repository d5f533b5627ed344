'use client'

import { useField } from '@conform-to/react'
import type { Choice } from './field'

/** Any number of words, each a target for a thumb. With them goes “none”, so that no tick at all is an answer too. */
export function TicksField({
  name,
  label,
  choices,
}: {
  readonly name: string
  readonly label: string
  readonly choices: readonly Choice[]
}) {
  const [field] = useField<string[]>(name)
  const ticked = [field.initialValue ?? []].flat()
  return (
    <fieldset className="grid content-start">
      <legend className="font-semibold">{label}</legend>
      <input type="hidden" name={field.name} value="none" />
      {choices.map(({ value, words }) => (
        <label key={value} className="flex min-h-11 items-center gap-3">
          <input
            type="checkbox"
            name={field.name}
            value={value}
            defaultChecked={ticked.includes(value)}
            className="size-5 shrink-0 accent-[var(--accent)]"
          />
          {words}
        </label>
      ))}
      {field.errors && <p className="text-s font-semibold text-stop">{field.errors.join(' ')}</p>}
    </fieldset>
  )
}
