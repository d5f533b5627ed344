'use client'

import { useField } from '@conform-to/react'
import { useState } from 'react'
import { Button } from './button'
import { TextField } from './field'

/** Steps in order, each with a time if it has one. Rows are told apart by a number of their own. */
export function StepRows({ time }: { time: { readonly field: string; readonly unit: string } }) {
  const [field] = useField<Record<string, string>[]>('steps')
  const [rows, setRows] = useState(() => Array.from({ length: field.initialValue?.length ?? 0 }, (_, row) => row))
  return (
    <div className="grid gap-3">
      {rows.map((row, place) => (
        <div key={row} className="grid grid-cols-[1fr_7rem] items-start gap-3">
          <TextField name={`steps[${row}].text`} label={`Step ${place + 1}`} />
          <TextField name={`steps[${row}].${time.field}`} label="Time" unit={time.unit} inputMode="decimal" />
        </div>
      ))}
      <div>
        <Button look="plain" onClick={() => setRows([...rows, Math.max(-1, ...rows) + 1])}>
          Add a step
        </Button>
      </div>
    </div>
  )
}
