'use client'

import { useEffect, useState, type RefObject } from 'react'
import type { Difference } from '@/lib/forms/saved-elsewhere'
import { Button } from './button'

type Which = 'mine' | 'stored'

interface Labelled {
  readonly path: string
  readonly label: string
  readonly typed: string
  readonly stored: string
}

/** What was saved elsewhere meanwhile, beside what was typed here: for each field that differs one says which holds. */
export function Elsewhere({
  differences,
  form,
  choose,
}: {
  readonly differences: readonly Difference[]
  readonly form: RefObject<HTMLFormElement | null>
  /** puts what was typed, or what is stored, into these fields */
  readonly choose: (paths: readonly string[], which: Which) => void
}) {
  const [said, setSaid] = useState<readonly Labelled[]>(() => differences.map((one) => sayBare(one)))
  const [chosen, setChosen] = useState<Readonly<Record<string, Which>>>({})
  useEffect(() => {
    // Labels and the words of a choice stand on the page already, beside the fields. Not at the next frame: a tab that
    // lies behind another draws none.
    let isGone = false
    queueMicrotask(() => {
      const element = form.current
      if (element && !isGone) setSaid(differences.map((one) => sayBy(element, one)))
    })
    return () => {
      isGone = true
    }
  }, [differences, form])

  const pick = (paths: readonly string[], which: Which) => {
    setChosen((before) => ({ ...before, ...Object.fromEntries(paths.map((path) => [path, which])) }))
    choose(paths, which)
  }
  const all = differences.map(({ path }) => path)
  return (
    <section aria-label="What differs" className="rounded border border-line bg-raised px-4 py-2">
      <ul className="divide-y divide-line">
        {said.map(({ path, label, typed, stored }) => (
          <li key={path} className="grid gap-2 py-3">
            <span className="font-semibold">{label}</span>
            <span className="grid gap-2 sm:grid-cols-2">
              <Pick
                words="Keep mine"
                value={typed}
                of={label}
                is={chosen[path] === 'mine'}
                pick={() => pick([path], 'mine')}
              />
              <Pick
                words="Take the stored one"
                value={stored}
                of={label}
                is={chosen[path] === 'stored'}
                pick={() => pick([path], 'stored')}
              />
            </span>
          </li>
        ))}
      </ul>
      {all.length > 1 && (
        <p className="flex flex-wrap gap-x-4">
          <Button look="quiet" onClick={() => pick(all, 'mine')}>
            Keep all of mine
          </Button>
          <Button look="quiet" onClick={() => pick(all, 'stored')}>
            Take all that is stored
          </Button>
        </p>
      )}
    </section>
  )
}

function Pick({
  words,
  value,
  of,
  is,
  pick,
}: {
  words: string
  value: string
  of: string
  is: boolean
  pick: () => void
}) {
  return (
    <button
      type="button"
      aria-pressed={is}
      onClick={pick}
      className="grid min-h-11 cursor-pointer content-start rounded border border-edge px-3 py-2 text-start aria-pressed:border-2 aria-pressed:border-accent"
    >
      <span className="text-s text-soft">
        {words}
        {is && ' (chosen)'}
        <span className="sr-only"> of {of}:</span>
      </span>
      <span className="break-words whitespace-pre-line">{value}</span>
    </button>
  )
}

const nothing = 'nothing'
const joined = (values: readonly string[], by = '\n') => (values.length === 0 ? nothing : values.join(by))

/** Before the page is there, and without script: the name of the field, spelled. */
function sayBare({ path, typed, stored }: Difference): Labelled {
  const label = path
    .replace(/\[(\d+)\]/g, (_, row: string) => ` ${Number(row) + 1}`)
    .replace(/[.]/g, ', ')
    .replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`)
  return {
    path,
    label: label.replace(/^./, (first) => first.toUpperCase()),
    typed: joined(typed),
    stored: joined(stored),
  }
}

type Control = HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement

const isControl = (element: Element): element is Control =>
  element instanceof HTMLInputElement || element instanceof HTMLSelectElement || element instanceof HTMLTextAreaElement

const isBox = (control: Control) => control instanceof HTMLInputElement && ['checkbox', 'radio'].includes(control.type)

const textOf = (node: Node | null | undefined) => node?.textContent?.replace(/\s+/g, ' ').trim() ?? ''

/** What a field is called, without the help that may stand inside its label. */
function nameOf(control: Control): string {
  const label = control.labels?.[0]
  const inside = label?.querySelector('span') ?? label
  return textOf(inside?.firstChild) || textOf(inside)
}

function sayBy(form: HTMLFormElement, difference: Difference): Labelled {
  const { path, typed, stored } = difference
  const controls = [...form.elements].filter(isControl)
  const own = controls.filter((control) => control.name === path)
  const [first] = own
  if (!first) {
    const words = wordsOfChoices(controls.filter((control) => control instanceof HTMLSelectElement))
    const rows = (values: readonly string[]) =>
      joined(
        values.map((row) =>
          row
            .split(' ')
            .map((word) => words.get(word) ?? word)
            .join(' '),
        ),
      )
    const inside = controls.find((control) => control.name.startsWith(`${path}[`))
    const label = textOf(inside?.closest('fieldset')?.querySelector('legend'))
    return { ...sayBare(difference), ...(label && { label }), typed: rows(typed), stored: rows(stored) }
  }
  if (own.length === 1 && isBox(first)) {
    const said = (values: readonly string[]) => (values.length > 0 ? 'yes' : 'no')
    return { path, label: labelOf(first, false), typed: said(typed), stored: said(stored) }
  }
  const words = wordsOfChoices(own)
  const said = (values: readonly string[]) => joined(values.map((value) => words.get(value) ?? value))
  return { path, label: labelOf(first, isBox(first)), typed: said(typed), stored: said(stored) }
}

/** What the values of selects, boxes and circles are called on the page. */
function wordsOfChoices(controls: readonly Control[]): ReadonlyMap<string, string> {
  return new Map(
    controls.flatMap((control): [string, string][] => {
      if (control instanceof HTMLSelectElement)
        return [...control.options].map((option) => [option.value, textOf(option)])
      return isBox(control) ? [[control.value, nameOf(control)]] : []
    }),
  )
}

function labelOf(control: Control, isOneOfSeveral: boolean): string {
  const own = isOneOfSeveral ? textOf(control.closest('fieldset')?.querySelector('legend')) : nameOf(control)
  const row = control.closest('[role=group]')
  const heading = row?.getAttribute('aria-labelledby')
  const group = row?.getAttribute('aria-label') ?? (heading ? textOf(document.getElementById(heading)) : '')
  return group ? `${group}: ${own}` : own
}
