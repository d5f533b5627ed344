'use client'

import { useField } from '@conform-to/react'
import { useEffect, useId, useMemo, useState } from 'react'
import type { Part } from '@/lib/drink/part'
import type { UnreadLine } from '@/lib/forms/draft-unread'
import { Button } from '@/app/ui/button'
import { SelectField, TextField } from '@/app/ui/field'
import { Fold } from '@/app/ui/page-frame'
import { partChoice, type PartChoice } from '@/app/ui/part-choice'
import { PartFields } from '@/app/ui/part-fields'
import { formChoices, kindChoices } from '../../../store/say-store'

/** The lines in build order. Rows are told apart by a number of their own, so that removing one moves no typing. */
export function LineRows({
  parts,
  onRows,
  unread,
}: {
  parts: readonly Part[]
  onRows: () => void
  unread: readonly UnreadLine[]
}) {
  const choices = useMemo(() => parts.map(partChoice), [parts])
  const [field] = useField<Record<string, string>[]>('lines')
  const [rows, setRows] = useState(() => {
    const sent = field.initialValue ?? []
    const placeOf = (row: number) => {
      const line = sent[row]
      return Number((typeof line === 'object' ? line['place'] : undefined) ?? row)
    }
    return Array.from({ length: Math.max(sent.length, 1) }, (_, row) => row).toSorted((a, b) => placeOf(a) - placeOf(b))
  })
  const up = (place: number) => () =>
    setRows(
      rows.map((row, at) => (at === place - 1 ? (rows[place] ?? row) : at === place ? (rows[place - 1] ?? row) : row)),
    )
  useEffect(onRows, [rows, onRows])
  return (
    <fieldset className="grid gap-3">
      <legend className="mb-2 text-l font-semibold">What goes in, in build order</legend>
      {field.errors && <p className="font-semibold text-stop">{field.errors.join(' ')}</p>}
      {rows.map((row, place) => (
        <LineRow
          key={row}
          row={row}
          place={place}
          problem={unread.find((one) => one.row === String(row))?.message ?? null}
          parts={choices}
          settled={onRows}
          up={place > 0 ? up(place) : null}
          remove={() => setRows(rows.filter((other) => other !== row))}
        />
      ))}
      <div>
        <Button look="plain" onClick={() => setRows([...rows, Math.max(-1, ...rows) + 1])}>
          Add a line
        </Button>
      </div>
    </fieldset>
  )
}

function LineRow({
  row,
  place,
  problem,
  parts,
  up,
  remove,
  settled,
}: {
  row: number
  place: number
  /** why the figures do not count it yet */
  problem: string | null
  parts: readonly PartChoice[]
  /** moves the line one place up in the build; null for the first */
  up: (() => void) | null
  remove: () => void
  settled: () => void
}) {
  const name = (field: string) => `lines[${row}].${field}`
  const [part] = useField<string>(name('part'))
  const [kept] = useField<string>(name('role'))
  const [chosen, setChosen] = useState(part.initialValue ?? '')
  const [role, setRole] = useState(kept.initialValue ?? '')
  useEffect(settled, [role, settled])
  const heading = useId()
  const shown = parts.find((one) => one.value === chosen)?.words
  return (
    <div role="group" aria-labelledby={heading} className="grid gap-3 rounded border border-line bg-raised p-3 pt-1">
      <div className="flex items-center justify-between">
        <span id={heading} className="text-s text-soft">
          Line {place + 1}
          {problem !== null && <strong className="text-stop"> not counted</strong>}
        </span>
        <span className="flex gap-2">
          {up && (
            <button type="button" onClick={up} className="min-h-11 cursor-pointer px-2 text-accent underline">
              Move up
              <span className="sr-only">
                {' '}
                line {place + 1}
                {shown && `, ${shown}`}
              </span>
            </button>
          )}
          <button type="button" onClick={remove} className="min-h-11 cursor-pointer px-2 text-accent underline">
            Remove
            <span className="sr-only">
              {' '}
              line {place + 1}
              {shown && `, ${shown}`}
            </span>
          </button>
        </span>
        <input type="hidden" name={name('place')} value={place} />
      </div>
      <PartFields
        row={`lines[${row}]`}
        parts={parts}
        amount="Target"
        fresh={<NewPart name={name} />}
        onPart={(next) => {
          setChosen(next)
          setRole('')
        }}
        onSettled={settled}
      />
      {problem !== null && <p className="text-s font-semibold text-stop">{problem}</p>}
      <Fold words="Role, weighed amount, tolerance, temperature, grind, note">
        <div className="grid gap-3 sm:grid-cols-2">
          <SelectField
            name={name('role')}
            label="Role"
            none="what it is"
            choices={kindChoices}
            held={{ value: role, change: setRole }}
          />
          <TextField name={name('weighed')} label="Weighed" unit="g" inputMode="decimal" />
          <TextField name={name('tolerance')} label="Tolerance ±" unit="g" inputMode="decimal" />
          <TextField name={name('temperature')} label="Temperature" unit="°C" inputMode="decimal" />
          <TextField name={name('grind')} label="Grind" help="Of coffee: the setting of your grinder." />
          <TextField name={name('note')} label="Note" />
        </div>
      </Fold>
    </div>
  )
}

/** What is new is asked what it is: nothing becomes an ingredient of some kind by default. */
function NewPart({ name }: { name: (field: string) => string }) {
  return (
    <>
      <TextField
        name={name('newName')}
        label="Its name"
        help="Its label, price and composition can be entered in the store later."
      />
      <div className="grid gap-3 sm:grid-cols-2">
        <SelectField name={name('newKind')} label="What it is" none="choose" choices={kindChoices} />
        <SelectField name={name('newForm')} label="How it enters the glass" none="choose" choices={formChoices} />
      </div>
    </>
  )
}
