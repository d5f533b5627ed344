'use client'

import { useField } from '@conform-to/react'
import { useState } from 'react'
import { Button } from '@/app/ui/button'
import { AreaField, TextField } from '@/app/ui/field'
import { Fold } from '@/app/ui/page-frame'
import type { PartChoice } from '@/app/ui/part-choice'
import { PartFields } from '@/app/ui/part-fields'
import { StepRows } from '@/app/ui/step-rows'
import { localRules, Notice } from '@/app/ui/notice'

/** What went in, what was done, what came out: in the order of the bench. */
export function BatchFields({ parts, kind }: { parts: readonly PartChoice[]; kind: string }) {
  const hot = kind === 'syrup'
  return (
    <>
      {hot && (
        <Notice look="caution">
          Hot syrup sticks and burns: a deep pot, no children near it; on a burn, cool water for twenty minutes.{' '}
          {localRules}
        </Notice>
      )}
      <InputRows parts={parts} />
      <Fold words="What was done, step by step">
        <StepRows time={{ field: 'minutes', unit: 'min' }} />
      </Fold>
      <fieldset className="grid gap-4">
        <legend className="mb-2 text-l font-semibold">What came out</legend>
        <TextField
          name="output"
          label="Mass that came out, weighed"
          unit="g"
          inputMode="decimal"
          help="Tare the pot before, weigh after. While this is empty nothing can be costed from the batch."
        />
        {hot ? (
          <TextField
            name="brix"
            label="Brix, if measured"
            unit="°Bx"
            inputMode="decimal"
            help="Else it follows from the sugar that went in and the mass that came out."
          />
        ) : (
          <TextField name="solids" label="Dissolved solids, if measured" unit="%" inputMode="decimal" />
        )}
        <TextField name="density" label="Density, if measured" unit="g/ml" inputMode="decimal" />
      </fieldset>
      <div className="grid gap-4 sm:grid-cols-2">
        <TextField name="madeAt" label="Made" type="datetime-local" />
        <TextField name="discardAt" label="Discard" type="datetime-local" help="Empty: after the house’s own limit." />
      </div>
      <AreaField name="note" label="Note" />
    </>
  )
}

function InputRows({ parts }: { parts: readonly PartChoice[] }) {
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
