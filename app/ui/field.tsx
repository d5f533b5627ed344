'use client'

import { getInputProps, getSelectProps, getTextareaProps, useField } from '@conform-to/react'
import type { HTMLInputAutoCompleteAttribute, ReactNode } from 'react'

export const box =
  'min-h-11 w-full rounded border border-edge bg-raised px-3 py-2 text-ink aria-[invalid=true]:border-stop aria-[invalid=true]:border-2'

interface Common {
  readonly name: string
  readonly label: ReactNode
  readonly help?: ReactNode
}

/** A field whose content another field may change: it is held by the page and not by the field. */
export interface Held {
  readonly value: string
  change(value: string): void
}

const holding = (held: Held | undefined) =>
  held && {
    defaultValue: undefined,
    value: held.value,
    onChange: (event: { target: { value: string } }) => held.change(event.target.value),
  }

export function Around({ name, label, help, children }: Common & { readonly children: ReactNode }) {
  const [field] = useField<string>(name)
  return (
    <div className="grid content-start gap-1">
      <label htmlFor={field.id} className="font-semibold">
        {label}
      </label>
      {children}
      {help && (
        <p id={field.descriptionId} className="text-s text-soft">
          {help}
        </p>
      )}
      <Problem id={field.errorId} words={field.errors} />
    </div>
  )
}

function Problem({ id, words }: { id: string; words: string[] | undefined }) {
  if (!words?.length) return null
  return (
    <p id={id} className="text-s font-semibold text-stop">
      {words.join(' ')}
    </p>
  )
}

interface TextFieldProps extends Common {
  readonly type?: 'text' | 'email' | 'password' | 'date' | 'datetime-local' | 'search'
  /** shown inside the field, behind the number */
  readonly unit?: ReactNode
  /** 'decimal' for amounts: the keypad has a comma or a point, and both are understood */
  readonly inputMode?: 'text' | 'decimal' | 'numeric' | 'email'
  readonly autoComplete?: HTMLInputAutoCompleteAttribute
  readonly list?: string
  readonly placeholder?: string
  readonly required?: boolean
  readonly autoFocus?: boolean
  readonly held?: Held
}

export function TextField({ name, label, help, unit, type = 'text', required, held, ...rest }: TextFieldProps) {
  const [field] = useField<string>(name)
  const { key, ...props } = getInputProps(field, { type, ariaDescribedBy: help ? field.descriptionId : undefined })
  const isNumber = rest.inputMode === 'decimal' || rest.inputMode === 'numeric'
  return (
    <Around name={name} label={label} help={help}>
      <div className="relative">
        <input
          key={key}
          {...props}
          {...rest}
          {...holding(held)}
          aria-required={required || undefined}
          className={`${box} ${isNumber ? 'text-end' : ''} ${unit ? 'pe-16' : ''}`}
        />
        {unit && (
          <span className="pointer-events-none absolute inset-y-0 end-3 flex items-center text-soft" aria-hidden="true">
            {unit}
          </span>
        )}
      </div>
    </Around>
  )
}

export function AreaField({ name, label, help, rows = 3 }: Common & { readonly rows?: number }) {
  const [field] = useField<string>(name)
  const { key, ...props } = getTextareaProps(field, { ariaDescribedBy: help ? field.descriptionId : undefined })
  return (
    <Around name={name} label={label} help={help}>
      <textarea key={key} {...props} rows={rows} className={box} />
    </Around>
  )
}

export interface Choice {
  readonly value: string
  readonly words: string
}

export function SelectField({
  name,
  label,
  help,
  choices,
  none,
  held,
}: Common & {
  readonly choices: readonly Choice[]
  /** words for the empty choice */
  readonly none?: string
  readonly held?: Held
}) {
  const [field] = useField<string>(name)
  const { key, ...props } = getSelectProps(field, { ariaDescribedBy: help ? field.descriptionId : undefined })
  return (
    <Around name={name} label={label} help={help}>
      <select key={key} {...props} {...holding(held)} className={box}>
        {none !== undefined && <option value="">{none}</option>}
        {choices.map((choice) => (
          <option key={choice.value} value={choice.value}>
            {choice.words}
          </option>
        ))}
      </select>
    </Around>
  )
}

/** One of a few, all visible, each a target for a thumb. */
export function ChoiceField({
  name,
  label,
  help,
  choices,
}: Common & { readonly choices: readonly (Choice & { readonly help?: ReactNode })[] }) {
  const [field] = useField<string>(name)
  return (
    <fieldset aria-describedby={field.errors ? field.errorId : undefined} className="grid gap-1">
      <legend className="mb-1 font-semibold">{label}</legend>
      {choices.map((choice) => (
        <label
          key={choice.value}
          className="flex min-h-11 items-start gap-3 rounded border border-line bg-raised px-3 py-2"
        >
          <input
            type="radio"
            name={field.name}
            value={choice.value}
            defaultChecked={field.initialValue === choice.value}
            className="mt-1 size-5 shrink-0 accent-[var(--accent)]"
          />
          <span>
            {choice.words}
            {choice.help && <span className="block text-s text-soft">{choice.help}</span>}
          </span>
        </label>
      ))}
      {help && <p className="text-s text-soft">{help}</p>}
      <Problem id={field.errorId} words={field.errors} />
    </fieldset>
  )
}

export function CheckField({ name, label, help, value = 'on' }: Common & { readonly value?: string }) {
  const [field] = useField<string>(name)
  const checked = Array.isArray(field.initialValue) ? field.initialValue.includes(value) : field.initialValue === value
  return (
    <div className="grid gap-1">
      <label className="flex min-h-11 items-start gap-3 py-2">
        <input
          type="checkbox"
          name={field.name}
          value={value}
          defaultChecked={checked}
          aria-describedby={field.errors ? field.errorId : undefined}
          className="mt-0.5 size-5 shrink-0 accent-[var(--accent)]"
        />
        <span>
          {label}
          {help && <span className="block text-s text-soft">{help}</span>}
        </span>
      </label>
      <Problem id={field.errorId} words={field.errors} />
    </div>
  )
}

export function HiddenField({ name, value }: { readonly name: string; readonly value: string }) {
  return <input type="hidden" name={name} value={value} />
}
