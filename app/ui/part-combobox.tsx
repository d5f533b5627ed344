'use client'

import { useField } from '@conform-to/react'
import { useEffect, useId, useRef, useState, useSyncExternalStore, type KeyboardEvent } from 'react'
import { Around, box, SelectField, type Held } from './field'
import { fitting } from './fitting'
import type { PartChoice } from './part-choice'

interface Props {
  readonly name: string
  readonly label: string
  readonly parts: readonly PartChoice[]
  readonly held: Held
  /** told the name that was typed and is not there, where something new may be made; the value is "new" then */
  readonly make?: ((named: string) => void) | undefined
}

const never = () => () => undefined
/** Before the script runs, and where none does, a list to choose from stands there. */
const useScript = () =>
  useSyncExternalStore(
    never,
    () => true,
    () => false,
  )

/** One of the store's parts, chosen by typing some of its name: arrow keys, Enter, Escape, as a list with a field is used everywhere. */
export function PartCombobox(props: Props) {
  const hasScript = useScript()
  if (hasScript) return <Typed {...props} />
  const { name, label, parts, held, make } = props
  const choices = make ? [...parts, { value: 'new', words: 'something new …' }] : parts
  return <SelectField name={name} label={label} none="choose" choices={choices} held={held} />
}

function Typed({ name, label, parts, held, make }: Props) {
  const [field] = useField<string>(name)
  const list = useId()
  const hidden = useRef<HTMLInputElement>(null)
  const chosen = parts.find(({ value }) => value === held.value)
  const [text, setText] = useState(chosen?.words ?? '')
  const [isOpen, setOpen] = useState(false)
  const [isTyping, setTyping] = useState(false)
  const [active, setActive] = useState(0)

  const found = fitting(parts, isTyping ? text : '')
  const isThere = parts.some(({ words }) => words.toLowerCase() === text.trim().toLowerCase())
  const options: { value: string; words: string }[] = [...found]
  if (make && isTyping && text.trim() !== '' && !isThere)
    options.push({ value: 'new', words: `Make “${text.trim()}”: it is not in the store yet` })

  const told = useRef(held.value)
  useEffect(() => {
    if (told.current === held.value) return
    told.current = held.value
    // What was chosen counts as typed: the draft on this device and the figures beside follow it.
    hidden.current?.dispatchEvent(new Event('input', { bubbles: true }))
  }, [held.value])
  useEffect(() => {
    if (isOpen) document.getElementById(`${list}-${active}`)?.scrollIntoView({ block: 'nearest' })
  }, [isOpen, active, list])

  const choose = (option: { value: string; words: string } | undefined) => {
    if (!option) return
    if (option.value === 'new') make?.(text.trim())
    else setText(option.words)
    held.change(option.value)
    setTyping(false)
    setOpen(false)
  }
  const leave = () => {
    setOpen(false)
    if (!isTyping) return
    setTyping(false)
    const same = parts.find(({ words }) => words.toLowerCase() === text.trim().toLowerCase())
    if (same) choose(same)
    else if (held.value !== 'new' || text.trim() === '') held.change('')
  }
  const keys = (event: KeyboardEvent) => {
    const step = event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : 0
    if (step !== 0) {
      event.preventDefault()
      if (isOpen) setActive((options.length + active + step) % Math.max(options.length, 1))
      else {
        setActive(Math.max(0, isTyping ? 0 : options.findIndex(({ value }) => value === held.value)))
        setOpen(true)
      }
    } else if (event.key === 'Enter' && isOpen) {
      event.preventDefault()
      choose(options[active])
    } else if (event.key === 'Escape' && isOpen) {
      event.preventDefault()
      setOpen(false)
    }
  }
  const isUnknown = !isTyping && held.value === '' && text.trim() !== ''
  return (
    <Around
      name={name}
      label={label}
      help={isUnknown ? `“${text.trim()}” is not in the store: choose from the list.` : null}
    >
      <div className="relative">
        <input
          id={field.id}
          type="text"
          role="combobox"
          autoComplete="off"
          aria-autocomplete="list"
          aria-expanded={isOpen}
          aria-controls={list}
          aria-activedescendant={isOpen && options.length > 0 ? `${list}-${active}` : undefined}
          aria-invalid={field.errors ? true : undefined}
          aria-describedby={field.errors ? field.errorId : isUnknown ? field.descriptionId : undefined}
          placeholder="type its name"
          className={`${box} pe-10`}
          value={text}
          onChange={(event) => {
            setText(event.target.value)
            setTyping(true)
            setActive(0)
            setOpen(true)
          }}
          onClick={() => setOpen(true)}
          onBlur={leave}
          onKeyDown={keys}
        />
        <span className="pointer-events-none absolute inset-y-0 end-3 flex items-center text-soft" aria-hidden="true">
          ▾
        </span>
        <ul
          id={list}
          role="listbox"
          aria-label={label}
          hidden={!isOpen}
          className="absolute inset-x-0 top-full z-10 mt-1 max-h-72 overflow-y-auto rounded border border-edge bg-raised shadow-lg"
        >
          {options.map((option, place) => (
            <li
              key={option.value}
              id={`${list}-${place}`}
              role="option"
              aria-selected={place === active}
              className="flex min-h-11 cursor-pointer items-center px-3 py-2 aria-selected:bg-accent aria-selected:text-on-accent"
              // The field keeps the focus: leaving it would close the list before the press is heard.
              onPointerDown={(event) => event.preventDefault()}
              onMouseDown={(event) => event.preventDefault()}
              onClick={() => choose(option)}
            >
              {option.words}
            </li>
          ))}
          {options.length === 0 && (
            <li role="option" aria-selected={false} aria-disabled className="px-3 py-2 text-soft">
              Nothing of this name.
            </li>
          )}
        </ul>
        <input ref={hidden} type="hidden" name={name} value={held.value} />
      </div>
      <span role="status" className="sr-only">
        {isOpen && isTyping && `${found.length} found`}
      </span>
    </Around>
  )
}
