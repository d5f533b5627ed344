'use client'

import { useField } from '@conform-to/react'
import { useState } from 'react'
import { methods } from '@/lib/forms/method-choices'
import { unitChoices } from '@/lib/forms/unit-choices'
import { Button } from '@/app/ui/button'
import { SelectField, TextField } from '@/app/ui/field'
import type { PartChoice } from '@/app/ui/part-choice'
import { PartFields } from '@/app/ui/part-fields'
import { KnownPart, NewPart, type Asked } from '../../../trials/passing-fields'

interface Props {
  readonly parts: readonly PartChoice[]
  readonly asked: Asked
}

/** The lines that most drinks have; the first of the form is the coffee, as its act reads it. */
const usual = [
  { kind: 'coffee', label: 'Coffee', amount: 'Dry coffee' },
  { kind: 'sweetener', label: 'Sweetener', amount: 'Dose' },
  { kind: 'milk', label: 'Milk or plant drink', amount: 'Amount' },
] as const

export function FirstTrialFields({ parts, asked }: Props) {
  const [lines] = useField<unknown[]>('lines')
  const [further, setFurther] = useState(Math.max(0, (lines.initialValue?.length ?? 0) - usual.length))
  return (
    <>
      <TextField name="name" label="Name" required help="What sets it apart: “1:9, 30 g date syrup”." />
      <SelectField name="method" label="Method" choices={methods} />
      {usual.map(({ kind, label, amount }, row) => (
        <div key={kind} className="grid gap-3">
          <Line
            row={row}
            label={label}
            amount={amount}
            kind={kind}
            asked={asked}
            parts={parts.filter((part) => part.kind === kind)}
          />
          {kind === 'coffee' && <Poured name="water" label="Water in" help="For espresso: beverage out." />}
        </div>
      ))}
      {Array.from({ length: further }, (_, place) => (
        <div key={place} role="group" aria-label={`Line ${usual.length + place + 1}`} className="grid gap-3">
          <Line row={usual.length + place} label="What" amount="Target" asked={asked} parts={parts} />
        </div>
      ))}
      <div>
        <Button look="plain" onClick={() => setFurther(further + 1)}>
          Add a line
        </Button>
      </div>
      <Poured name="ice" label="Ice" help="May stay empty." />
    </>
  )
}

function Line({
  row,
  label,
  amount,
  kind,
  parts,
  asked,
}: Props & { row: number; label: string; amount: string; kind?: string }) {
  const line = `lines[${row}]`
  return (
    <PartFields
      row={line}
      parts={parts}
      label={label}
      amount={amount}
      fresh={(named) => <NewPart row={line} named={named} asked={asked} {...(kind && { kind })} />}
      known={(part) => <KnownPart row={line} part={part} asked={asked} />}
    />
  )
}

function Poured({ name, label, help }: { name: string; label: string; help: string }) {
  return (
    <div className="grid grid-cols-2 gap-3">
      <TextField name={name} label={label} inputMode="decimal" help={help} />
      <SelectField name={`${name}Unit`} label={`${label}: unit`} choices={unitChoices} />
    </div>
  )
}
