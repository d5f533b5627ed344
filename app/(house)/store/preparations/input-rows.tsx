'use client'

import { useField } from '@conform-to/react'
import { useState } from 'react'
import { Button } from '@/app/ui/button'
import { CheckField, TextField } from '@/app/ui/field'
import { Fold } from '@/app/ui/page-frame'
import type { PartChoice } from '@/app/ui/part-choice'
import { PartFields } from '@/app/ui/part-fields'

/** @param strained  it is infused and strained: of each input one says whether it is taken out again */
export function InputRows({ parts, strained = false }: { parts: readonly PartChoice[]; strained?: boolean }) {
  const [field] = useField<Record<string, string>[]>('inputs')
  const [rows, setRows] = useState(() =>
    Array.from({ length: Math.max(field.initialValue?.length ?? 0, 2) }, (_, row) => row),
  )
  return (
    <fieldset className="grid gap-3">
      <legend className="mb-2 text-l font-semibold">What went in</legend>
      {field.errors && <p className="font-semibold text-stop">{field.errors.join(' ')}</p>}
      {rows.map((row, place) => (
        <div
          key={row}
          role="group"
          aria-label={`Input ${place + 1}`}
          className="grid gap-3 rounded border border-line bg-raised p-3"
        >
          <PartFields row={`inputs[${row}]`} parts={parts} amount="Amount" />
          {strained && (
            <CheckField
              name={`inputs[${row}].isStrainedOut`}
              label="Strained out again"
              help="It gives its taste and keeps back liquid; nothing of it is counted but allergens and caffeine."
            />
          )}
          <div className="flex items-center justify-between gap-3">
            <Fold words="Temperature">
              <TextField name={`inputs[${row}].temperature`} label="Temperature" unit="°C" inputMode="decimal" />
            </Fold>
            <button
              type="button"
              onClick={() => setRows(rows.filter((other) => other !== row))}
              className="min-h-11 cursor-pointer px-2 text-accent underline"
            >
              Remove<span className="sr-only"> input {place + 1}</span>
            </button>
          </div>
        </div>
      ))}
      <div>
        <Button look="plain" onClick={() => setRows([...rows, Math.max(-1, ...rows) + 1])}>
          Add an input
        </Button>
      </div>
    </fieldset>
  )
}
