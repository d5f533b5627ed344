'use client'

import { useField } from '@conform-to/react'
import { useEffect, useId, useMemo, useRef, useState } from 'react'
import { fixed } from '@/lib/base/number-format'
import type { Part } from '@/lib/drink/part'
import type { UnreadLine } from '@/lib/forms/draft-unread'
import { sheetChoices } from '@/lib/forms/unit-choices'
import { useRestart } from '@/app/ui/act-form'
import { Button } from '@/app/ui/button'
import { SelectField, TextField } from '@/app/ui/field'
import { Fold } from '@/app/ui/page-frame'
import { partChoice, type PartChoice } from '@/app/ui/part-choice'
import { PartFields } from '@/app/ui/part-fields'
import { kindChoices } from '../../../store/say-store'
import { KnownPart, NewPart, type Asked } from '../../passing-fields'
import { insertedBelow, moved, withCopyOf } from './line-order'

/** What was done to the lines, so that it can be undone. */
interface Step {
  readonly rows: readonly number[]
  readonly words: string
}

/** Where the focus goes once the lines stand in their new order. */
export interface FocusNext {
  current: { readonly place: number; readonly on: LineAct | 'what' | 'undo' } | null
}

interface Props {
  readonly parts: readonly Part[]
  readonly asked: Asked
  readonly onRows: () => void
  readonly unread: readonly UnreadLine[]
  /** g of a line that was typed in something else, by its row */
  readonly weighs: ReadonlyMap<string, number>
  /** outlives this list, which is made anew when a line is copied */
  readonly focusRef: FocusNext
}

/**
 * The lines in build order. Rows are told apart by a number of their own, so that removing one moves no typing; one that was
 * removed stays, unseen and unsent, until the page is left, so that it can be brought back with all that was typed.
 */
export function LineRows({ parts, asked, onRows, unread, weighs, focusRef }: Props) {
  const choices = useMemo(() => parts.map(partChoice), [parts])
  const [field] = useField<Record<string, string>[]>('lines')
  const restart = useRestart()
  const list = useRef<HTMLFieldSetElement>(null)
  const [rows, setRows] = useState<readonly number[]>(() => {
    const sent = field.initialValue ?? []
    const placeOf = (row: number) => {
      const line = sent[row]
      return Number((typeof line === 'object' ? line['place'] : undefined) ?? row)
    }
    return Array.from({ length: Math.max(sent.length, 1) }, (_, row) => row).toSorted((a, b) => placeOf(a) - placeOf(b))
  })
  const [ever, setEver] = useState(rows)
  const [steps, setSteps] = useState<readonly Step[]>([])
  const first = useRef(rows)
  useEffect(() => {
    onRows()
    if (first.current !== rows) list.current?.dispatchEvent(new Event('input', { bubbles: true }))
    if (focusRef.current) focusOn(list.current, focusRef.current)
    focusRef.current = null
  }, [rows, onRows, focusRef])

  const change = (next: readonly number[], words: string, then: FocusNext['current']) => {
    focusRef.current = then
    setSteps([...steps, { rows, words }])
    setRows(next)
  }
  const add = (next: (fresh: number) => readonly number[], words: string) => {
    const fresh = Math.max(-1, ...ever) + 1
    setEver([...ever, fresh])
    change(next(fresh), words, { place: next(fresh).indexOf(fresh), on: 'what' })
  }
  const undo = (step: Step) => {
    setSteps(steps.slice(0, -1))
    focusRef.current = steps.length > 1 ? { place: 0, on: 'undo' } : { place: 0, on: 'what' }
    setRows(step.rows)
  }
  const acts = (row: number, place: number): Record<LineAct, () => void> => ({
    up: () => change(moved(rows, row, -1), `line ${place + 1} moved up`, { place: place - 1, on: 'up' }),
    down: () => change(moved(rows, row, 1), `line ${place + 1} moved down`, { place: place + 1, on: 'down' }),
    copy: () => {
      focusRef.current = { place: place + 1, on: 'what' }
      restart((typed) => withCopyOf(typed, rows, row))
    },
    insert: () => add((fresh) => insertedBelow(rows, row, fresh), `line ${place + 2} put in`),
    remove: () =>
      change(
        rows.filter((other) => other !== row),
        `line ${place + 1} removed`,
        { place: 0, on: 'undo' },
      ),
  })
  const last = steps.at(-1)
  return (
    <fieldset ref={list} className="grid gap-3">
      <legend className="mb-2 text-l font-semibold">What goes in, in build order</legend>
      {field.errors && <p className="font-semibold text-stop">{field.errors.join(' ')}</p>}
      {[...rows, ...ever.filter((row) => !rows.includes(row))].map((row, place) => (
        <LineRow
          key={row}
          row={row}
          place={place}
          isGone={place >= rows.length}
          isLast={place === rows.length - 1}
          problem={unread.find((one) => one.row === String(row))?.message ?? null}
          grams={weighs.get(String(row)) ?? null}
          parts={choices}
          asked={asked}
          settled={onRows}
          acts={acts(row, place)}
        />
      ))}
      <div className="flex flex-wrap gap-3">
        <Button look="plain" onClick={() => add((fresh) => [...rows, fresh], `line ${rows.length + 1} added`)}>
          Add a line
        </Button>
        {last && (
          <Button look="plain" data-undo="" onClick={() => undo(last)}>
            Undo: {last.words}
          </Button>
        )}
      </div>
      <p role="status" className="sr-only">
        {last?.words}
      </p>
    </fieldset>
  )
}

function focusOn(list: HTMLElement | null, { place, on }: NonNullable<FocusNext['current']>) {
  const line = list?.querySelector(`[data-place="${place}"]`)
  const what = line?.querySelector<HTMLElement>('input[role=combobox]')
  const wanted =
    on === 'undo'
      ? list?.querySelector<HTMLElement>('[data-undo]')
      : on === 'what'
        ? what
        : (line?.querySelector<HTMLElement>(`[data-act=${on}]`) ?? line?.querySelector<HTMLElement>('[data-act]'))
  wanted?.focus()
}

type LineAct = 'up' | 'down' | 'copy' | 'insert' | 'remove'

const words: Readonly<Record<LineAct, string>> = {
  up: 'Move up',
  down: 'Move down',
  copy: 'Copy',
  insert: 'Insert below',
  remove: 'Remove',
}

interface RowProps {
  readonly row: number
  readonly place: number
  readonly isGone: boolean
  readonly isLast: boolean
  /** why the figures do not count it yet */
  readonly problem: string | null
  /** what it comes to, where it was typed in something else */
  readonly grams: number | null
  readonly parts: readonly PartChoice[]
  readonly asked: Asked
  readonly acts: Readonly<Record<LineAct, () => void>>
  readonly settled: () => void
}

function LineRow({ row, place, isGone, isLast, problem, grams, parts, asked, acts, settled }: RowProps) {
  const name = (field: string) => `lines[${row}].${field}`
  const [part] = useField<string>(name('part'))
  const [kept] = useField<string>(name('role'))
  const [chosen, setChosen] = useState(part.initialValue ?? '')
  const [role, setRole] = useState(kept.initialValue ?? '')
  useEffect(settled, [role, settled])
  const heading = useId()
  const shown = parts.find((one) => one.value === chosen)?.words
  const offered = (['up', 'down', 'copy', 'insert', 'remove'] as const).filter(
    (act) => (act !== 'up' || place > 0) && (act !== 'down' || !isLast),
  )
  return (
    <fieldset
      aria-labelledby={heading}
      disabled={isGone}
      hidden={isGone}
      data-place={isGone ? undefined : place}
      className="grid min-w-0 gap-3 rounded border border-line bg-raised p-3 pt-1"
    >
      <div className="flex flex-wrap items-center justify-between">
        <span id={heading} className="text-s text-soft">
          Line {place + 1}
          {grams !== null && problem === null && `: ${fixed(grams, 1)}\u00a0g`}
          {problem !== null && <strong className="text-stop"> not counted</strong>}
        </span>
        <span className="flex flex-wrap gap-x-1">
          {offered.map((act) => (
            <button
              key={act}
              type="button"
              data-act={act}
              onClick={acts[act]}
              className="min-h-11 cursor-pointer px-2 text-s text-accent underline"
            >
              {words[act]}
              <span className="sr-only">
                {' '}
                line {place + 1}
                {shown && `, ${shown}`}
              </span>
            </button>
          ))}
        </span>
        <input type="hidden" name={name('place')} value={place} />
      </div>
      <PartFields
        row={`lines[${row}]`}
        parts={parts}
        amount="Target"
        units={sheetChoices}
        fresh={(named) => <NewPart row={`lines[${row}]`} named={named} asked={asked} />}
        known={(part) => <KnownPart row={`lines[${row}]`} part={part} asked={asked} />}
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
    </fieldset>
  )
}
