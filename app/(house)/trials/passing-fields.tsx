'use client'

import { useField } from '@conform-to/react'
import { useState } from 'react'
import { unitChoices } from '@/lib/forms/unit-choices'
import { SelectField, TextField } from '@/app/ui/field'
import { Fold } from '@/app/ui/page-frame'
import type { PartChoice } from '@/app/ui/part-choice'
import { formChoices, kindChoices } from '../store/say-store'

/** What a line needs to know to ask for a label and a price. */
export interface Asked {
  /** of the law that counts in this café */
  readonly allergens: readonly { readonly id: string; readonly name: string }[]
  readonly currency: string
}

/** How it enters the glass, where what it is says so. */
const formOf: Readonly<Record<string, string>> = { milk: 'liquid', water: 'liquid', ice: 'ice' }

/**
 * What is new is asked what it is: nothing becomes an ingredient of some kind by default. Its label and price are asked here,
 * so that the store need not be opened.
 *
 * @param kind  where the line is for one kind of thing alone
 */
export function NewPart({ row, named, kind, asked }: { row: string; named: string; kind?: string; asked: Asked }) {
  const [kindField] = useField<string>(`${row}.newKind`)
  const [formField] = useField<string>(`${row}.newForm`)
  const [nameField] = useField<string>(`${row}.newName`)
  const [name, setName] = useState(named || (nameField.initialValue ?? ''))
  const [chosen, setChosen] = useState(kind ?? kindField.initialValue ?? '')
  const [form, setForm] = useState(formField.initialValue ?? formOf[chosen] ?? '')
  return (
    <div className="grid gap-3">
      <TextField name={`${row}.newName`} label="Its name" held={{ value: name, change: setName }} />
      <div className="grid gap-3 sm:grid-cols-2">
        {kind ? (
          <input type="hidden" name={`${row}.newKind`} value={kind} />
        ) : (
          <SelectField
            name={`${row}.newKind`}
            label="What it is"
            none="choose"
            choices={kindChoices}
            held={{
              value: chosen,
              change: (next) => {
                setChosen(next)
                setForm(formOf[next] ?? form)
              },
            }}
          />
        )}
        <SelectField
          name={`${row}.newForm`}
          label="How it enters the glass"
          none="choose"
          choices={formChoices}
          held={{ value: form, change: setForm }}
        />
      </div>
      <LabelAndPrice row={row} asked={asked} named={[]} needsLabel needsPrice />
    </div>
  )
}

/** Of something in the store: its label where nobody has read it, its price where there is none. */
export function KnownPart({ row, part, asked }: { row: string; part: PartChoice; asked: Asked }) {
  if (part.labelRead === null) return null
  const isPlain = part.kind === 'water' || part.kind === 'ice'
  return (
    <LabelAndPrice
      key={part.value}
      row={row}
      asked={asked}
      named={part.names}
      needsLabel={!part.labelRead}
      needsPrice={!part.hasPrice && !isPlain}
    />
  )
}

interface LabelProps {
  readonly row: string
  readonly asked: Asked
  /** ids of what is known to be on the label */
  readonly named: readonly string[]
  readonly needsLabel: boolean
  readonly needsPrice: boolean
}

function LabelAndPrice({ row, asked, named, needsLabel, needsPrice }: LabelProps) {
  if (!needsLabel && !needsPrice) return null
  const has = asked.allergens.filter(({ id }) => named.includes(id)).map(({ name }) => name.toLowerCase())
  const others = asked.allergens.filter(({ id }) => !named.includes(id))
  const folds = [needsLabel && 'More on its label', needsPrice && 'Price of a pack'].filter(Boolean)
  return (
    <div className="grid gap-2">
      {needsLabel && <LabelTick row={row} has={has} />}
      <Fold words={folds.join(', ').replace(', P', ', p')}>
        <div className="grid gap-4">
          {needsLabel && <Named row={row} others={others} />}
          {needsPrice && (
            <div className="grid gap-3 sm:grid-cols-3">
              <TextField name={`${row}.price`} label="Price" unit={asked.currency} inputMode="decimal" />
              <TextField name={`${row}.pack`} label="for a pack of" inputMode="decimal" />
              <SelectField name={`${row}.packUnit`} label="Pack in" choices={unitChoices} />
            </div>
          )}
        </div>
      </Fold>
    </div>
  )
}

/** One tick for a label that was read: what it names is said beside it, so that nobody ticks what they did not read. */
function LabelTick({ row, has }: { row: string; has: readonly string[] }) {
  const [field] = useField<string>(`${row}.labelRead`)
  const known = has.length > 0 ? `it names ${has.join(', ')}, and none of the other` : 'it names none of the'
  return (
    <label className="flex min-h-11 items-start gap-3 py-1">
      <input
        type="checkbox"
        name={field.name}
        value="on"
        defaultChecked={field.initialValue === 'on'}
        className="mt-0.5 size-5 shrink-0 accent-[var(--accent)]"
      />
      <span>
        I have read its label: {known} listed allergens
        <span className="block text-s text-soft">
          With the pack in your hand. What else it names is ticked below; an unread label keeps a panel from opening.
        </span>
      </span>
    </label>
  )
}

function Named({ row, others }: { row: string; others: Asked['allergens'] }) {
  const [field] = useField<string[]>(`${row}.contains`)
  const kept: readonly unknown[] = [field.initialValue].flat()
  return (
    <fieldset className="grid gap-x-4 sm:grid-cols-2">
      <legend className="font-semibold">It also names</legend>
      {others.map(({ id, name }) => (
        <label key={id} className="flex min-h-11 items-center gap-3">
          <input
            type="checkbox"
            name={`${row}.contains`}
            value={id}
            defaultChecked={kept.includes(id)}
            className="size-5 shrink-0 accent-[var(--accent)]"
          />
          {name}
        </label>
      ))}
    </fieldset>
  )
}
