'use client'

import { useField } from '@conform-to/react'
import { useEffect, useState, type ReactNode } from 'react'
import { plain } from '@/lib/base/number-format'
import { DENSITY, printed } from '@/lib/forms/number-fields'
import { doseChoices, isPart, isPercent, isPump, volumeUnits } from '@/lib/forms/unit-choices'
import { SelectField, TextField, type Choice } from './field'
import { isBatch, type PartChoice } from './part-choice'
import { PartCombobox } from './part-combobox'

interface Props {
  /** the row these fields belong to: "lines[0]" */
  readonly row: string
  readonly parts: readonly PartChoice[]
  readonly amount: string
  readonly label?: string
  /** what an amount may be typed in; a share and a part on the sheet of a drink alone */
  readonly units?: readonly Choice[]
  /** what is asked of something new, of which the name may be typed already; without it nothing new can be named */
  readonly fresh?: ((named: string) => ReactNode) | undefined
  /** what is still asked of something that is in the store */
  readonly known?: ((part: PartChoice) => ReactNode) | undefined
  onPart?(part: string): void
  /** told once what was changed stands in the form */
  onSettled?(): void
}

/**
 * What goes in, and how much. A density is of one ingredient: another one brings its own, or is asked for it, and the form
 * says which ingredient it was typed for.
 */
export function PartFields({
  row,
  parts,
  amount,
  label = 'What',
  units = doseChoices,
  fresh,
  known,
  onPart,
  onSettled,
}: Props) {
  const [partField] = useField<string>(`${row}.part`)
  const [unitField] = useField<string>(`${row}.unit`)
  const density = useDensity(row, partField.initialValue ?? '', parts)
  const [part, setPart] = useState(partField.initialValue ?? '')
  const [unit, setUnit] = useState(unitField.initialValue ?? 'g')
  useEffect(() => onSettled?.(), [part, unit, density.value, onSettled])

  const [named, setNamed] = useState('')
  const chosen = parts.find(({ value }) => value === part)
  const change = (next: string) => {
    setPart(next)
    density.follow(next)
    onPart?.(next)
  }
  return (
    <>
      <PartCombobox
        name={`${row}.part`}
        label={label}
        parts={parts}
        make={fresh && setNamed}
        held={{ value: part, change }}
      />
      {part === 'new' && fresh && <div key={named}>{fresh(named)}</div>}
      <div className="grid grid-cols-2 gap-3">
        <TextField name={`${row}.amount`} label={amount} inputMode="decimal" />
        <SelectField name={`${row}.unit`} label="Unit" choices={units} held={{ value: unit, change: setUnit }} />
      </div>
      {isPercent(unit) && (
        <p className="text-s text-soft">
          Of the whole glass by weight, as built: every line, ice and brewed coffee included, before anything melts.
        </p>
      )}
      {isPart(unit) && <p className="text-s text-soft">How many grams one part is, is said once, below the lines.</p>}
      {isPump(unit) && <PumpLine part={parts.find((one) => one.value === part) ?? null} />}
      {volumeUnits.has(unit) && <DensityField name={`${row}.density`} part={part} parts={parts} held={density} />}
      <input type="hidden" name={`${row}.densityFor`} value={part} />
      {chosen && known?.(chosen)}
    </>
  )
}

/** What stands in the density's field: what was typed for this very part, else what the store says of it. */
function useDensity(row: string, part: string, parts: readonly PartChoice[]) {
  const [typed] = useField<string>(`${row}.density`)
  const [of] = useField<string>(`${row}.densityFor`)
  const [value, change] = useState(
    (of.initialValue === part ? typed.initialValue : undefined) ?? ownDensity(parts, part),
  )
  return { value, change, follow: (next: string) => change(ownDensity(parts, next)) }
}

/** The density as the store keeps it; empty where it has none. */
const ownDensity = (parts: readonly PartChoice[], ref: string) =>
  printed(parts.find((one) => one.value === ref)?.density ?? null, DENSITY)

/** What one press gives, or that nobody measured it: then the amount cannot be read. */
function PumpLine({ part }: { part: PartChoice | null }) {
  if (part === null)
    return <p className="text-s text-soft">What one press gives is kept in the store, with what it is of.</p>
  return (
    <p className="text-s text-soft">
      {part.pumpMl === null
        ? `Nobody has measured what one press of ${part.words} gives: say it on its page in the store.`
        : `One press of ${part.words}: ${plain(part.pumpMl, 3)} ml, as measured here.`}
    </p>
  )
}

function DensityField({
  name,
  part,
  parts,
  held,
}: {
  name: string
  part: string
  parts: readonly PartChoice[]
  held: { readonly value: string; change(value: string): void }
}) {
  const chosen = parts.find((one) => one.value === part)
  const words = chosen?.words ?? 'it'
  const isAssumed = chosen?.densityIsAssumed === true && held.value === ownDensity(parts, part)
  return (
    <TextField
      name={name}
      label="Density"
      unit="g/ml"
      inputMode="decimal"
      held={held}
      help={
        isAssumed
          ? `Assumed, the usual of its like: nobody has weighed ${words} yet.`
          : held.value !== ''
            ? `Turns the volume into grams, for ${words} alone.`
            : part === 'new'
              ? 'Empty: milk and plant drinks count with 1.02, marked as assumed. Of anything else 100 ml are weighed.'
              : isBatch(part)
                ? 'Empty: as this batch weighs, where that is known.'
                : `How many grams is a ml of ${words}? Weigh 100 ml and divide by 100.`
      }
    />
  )
}
