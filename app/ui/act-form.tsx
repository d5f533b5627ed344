'use client'

import { FormProvider, getFormProps, useForm, type DefaultValue } from '@conform-to/react'
import {
  createContext,
  startTransition,
  useActionState,
  useContext,
  useEffect,
  useRef,
  useState,
  type ReactNode,
  type RefObject,
} from 'react'
import type { FormAnswer as Answer } from '@/lib/forms/read-form'
import { settled, withFieldOf, type FormValues } from '@/lib/forms/saved-elsewhere'
import { Button, type ButtonLook } from './button'
import { Elsewhere } from './elsewhere'
import { useLeaveQuestion } from './leave-question'
import { Notice } from './notice'

/** What an action sends back to its form: problems beside their fields, and everything that was typed. */
export type FormAnswer = Answer | null

export type FormAction = (before: FormAnswer, form: FormData) => Promise<FormAnswer>

/** What a form starts with: texts, and lists or groups of them. */
export type Draft = FormValues

interface ActFormProps {
  readonly id: string
  readonly action: FormAction
  readonly defaults?: Draft
  /** for a form that changes what is stored: the mark of what it was opened with, which the act compares */
  readonly opened?: string
  /** keep what is typed on this device until it is sent; a name for this form and its subject */
  readonly keep?: string
  /** what is asked of somebody who leaves by a link with something typed and not sent */
  readonly askBeforeLeaving?: string | undefined
  readonly submit: string
  readonly submitLook?: ButtonLook
  /** the word in front of what went wrong, where nothing is being saved: "Not opened" */
  readonly refused?: string
  /** further buttons or words beside the submit button */
  readonly beside?: ReactNode
  readonly className?: string
  readonly children?: ReactNode
}

const Restart = createContext<((change: (typed: Draft) => Draft) => void) | null>(null)

/** For a part of a form that makes its fields anew, filled with what stands in them now, changed. */
export function useRestart(): (change: (typed: Draft) => Draft) => void {
  return useContext(Restart) ?? (() => undefined)
}

/** What the fields begin with. A new round makes them anew. */
interface Start {
  readonly round: number
  readonly from: 'page' | 'device' | 'typed'
  /** null: what the page says */
  readonly values: Draft | null
  readonly opened: string | undefined
}

/**
 * A form that loses nothing: it works without script, keeps a draft on the device, shows each problem beside its field, and
 * offers what was saved elsewhere meanwhile beside what was typed here.
 */
export function ActForm(props: ActFormProps) {
  const { action, opened, keep, refused = 'Not saved', className = '' } = props
  const [answer, send, pending] = useActionState(action, null)
  const [start, setStart] = useState<Start>({ round: 0, from: 'page', values: null, opened })
  // An answer whose fields were made anew since: its words stay, its values do not.
  const [past, setPast] = useState<FormAnswer>(null)
  const form = useRef<HTMLFormElement>(null)
  const summary = useRef<HTMLDivElement>(null)

  const begin = (next: Omit<Start, 'round'>) => {
    setPast(answer)
    setStart((before) => ({ ...next, round: before.round + 1 }))
  }
  const elsewhere = answer?.elsewhere
  const typed = answer?.initialValue as FormValues | undefined
  if (elsewhere && answer !== past) begin({ from: 'typed', values: settled(typed ?? {}), opened: elsewhere.opened })

  useSaved(pending, answer, () => opened !== undefined && begin({ from: 'page', values: null, opened }))
  useEffect(() => {
    if (answer?.status === 'error') summary.current?.focus()
  }, [answer])

  const typedNow = (element: HTMLFormElement) => unflatten(textsIn(new FormData(element))) as FormValues
  const choose = (paths: readonly string[], which: 'mine' | 'stored') => {
    if (!elsewhere || !form.current) return
    const from = which === 'mine' ? settled(typed ?? {}) : settled(elsewhere.stored)
    const values = paths.reduce((all, path) => withFieldOf(all, from, path), settled(typedNow(form.current)))
    begin({ from: 'typed', values, opened: elsewhere.opened })
  }
  const restart = (change: (typed: Draft) => Draft) => {
    if (form.current) begin({ from: 'typed', values: change(typedNow(form.current)), opened: start.opened })
  }

  const problems = answer?.status === 'error' ? (answer.error?.[''] ?? []) : []
  return (
    <div className={`grid gap-5 ${className}`}>
      {start.from === 'device' && (
        <Notice word="Draft">
          What you typed earlier on this device is back.{' '}
          <button
            type="button"
            className="inline-block min-h-6 cursor-pointer text-accent underline"
            onClick={() => {
              if (keep) localStorage.removeItem(keyOf(keep))
              begin({ from: 'page', values: null, opened })
            }}
          >
            Throw this draft away
          </button>
        </Notice>
      )}
      <div ref={summary} tabIndex={-1} role="alert" className="outline-none empty:hidden">
        {answer?.status === 'error' && (
          <Notice look="stop" word={refused}>
            {problems.length > 0 ? problems.join(' ') : 'Please look at the marked fields. Nothing you typed is lost.'}
          </Notice>
        )}
      </div>
      {elsewhere && elsewhere.differences.length > 0 && (
        <Elsewhere key={elsewhere.opened} differences={elsewhere.differences} form={form} choose={choose} />
      )}
      <Restart value={restart}>
        <Fields
          key={start.round}
          {...props}
          form={form}
          start={start}
          answer={answer === past ? null : answer}
          send={send}
          pending={pending}
          restore={(values) => {
            const kept = values['opened']
            begin({ from: 'device', values, opened: typeof kept === 'string' ? kept : opened })
          }}
        />
      </Restart>
    </div>
  )
}

interface FieldsProps extends ActFormProps {
  readonly form: RefObject<HTMLFormElement | null>
  readonly start: Start
  readonly answer: FormAnswer
  readonly send: (form: FormData) => void
  readonly pending: boolean
  readonly restore: (draft: Draft) => void
}

function Fields({ form: element, start, answer, send, pending, restore, ...props }: FieldsProps) {
  const { id, defaults, opened, keep, submit, submitLook, beside, className = '', children } = props
  const [form] = useForm({
    id,
    lastResult: answer,
    defaultValue: (start.values ?? defaults) as DefaultValue<Record<string, unknown>>,
  })
  useKeptDraft(start.round === 0 ? keep : undefined, restore)
  useKeeping(keep, element, answer)
  useLeaveQuestion(props.askBeforeLeaving, element, answer, start.from !== 'page')
  const sent: unknown = answer?.initialValue?.['opened']
  return (
    <FormProvider context={form.context}>
      <form
        {...getFormProps(form)}
        ref={element}
        action={send}
        // What the browser would put back by itself was typed over another state of things than the one marked below.
        autoComplete={opened === undefined ? undefined : 'off'}
        className={`grid gap-5 ${className}`}
        onSubmit={(event) => {
          event.preventDefault()
          const submitter = (event.nativeEvent as SubmitEvent).submitter
          const typed = new FormData(event.currentTarget, submitter)
          startTransition(() => send(typed))
        }}
      >
        {opened !== undefined && (
          <input type="hidden" name="opened" value={typeof sent === 'string' ? sent : start.opened} />
        )}
        {children}
        <div className="flex flex-wrap items-center gap-3">
          <Button type="submit" look={submitLook} aria-disabled={pending}>
            {pending ? 'Saving…' : submit}
          </Button>
          {beside}
        </div>
      </form>
    </FormProvider>
  )
}

/** Says once that what was sent has been taken, on a page that stays. */
function useSaved(pending: boolean, answer: FormAnswer, then: () => void) {
  const sent = useRef(false)
  useEffect(() => {
    if (pending) sent.current = true
    else if (sent.current) {
      sent.current = false
      if (answer === null) then()
    }
    // Only what became of the sending matters, not what the page says meanwhile.
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, [pending, answer])
}

const keyOf = (keep: string) => `sipwright-draft-${keep}`

/** Brings back what was typed on this device, once per page. */
function useKeptDraft(keep: string | undefined, restore: (draft: Draft) => void) {
  useEffect(() => {
    if (!keep) return
    const kept = localStorage.getItem(keyOf(keep))
    if (kept) restore(unflatten(JSON.parse(kept) as [string, string][]) as Draft)
    // Only once per form: later changes are this form's own.
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, [keep])
}

/** Keeps what is typed until it is sent, and again when it comes back with words beside it. */
function useKeeping(keep: string | undefined, element: RefObject<HTMLFormElement | null>, answer: FormAnswer) {
  useEffect(() => {
    const form = element.current
    if (!keep || !form) return
    const save = () => {
      const secret = new Set([...form.querySelectorAll('input[type=password]')].map((x) => x.getAttribute('name')))
      const typed = textsIn(new FormData(form)).filter(([name]) => !secret.has(name))
      localStorage.setItem(keyOf(keep), JSON.stringify(typed))
    }
    const clear = () => localStorage.removeItem(keyOf(keep))
    if (answer?.status === 'error') save()
    form.addEventListener('input', save)
    form.addEventListener('submit', clear)
    return () => {
      form.removeEventListener('input', save)
      form.removeEventListener('submit', clear)
    }
  }, [keep, element, answer])
}

const textsIn = (form: FormData) =>
  [...form].filter((entry): entry is [string, string] => typeof entry[1] === 'string' && !entry[0].startsWith('$'))

/** Turns `lines[0].amount` pairs into the nested defaults the form library understands. */
function unflatten(pairs: readonly [string, string][]): Record<string, unknown> {
  const whole: Record<string, unknown> = {}
  for (const [name, value] of pairs) {
    const path = name.replace(/\[(\d+)\]/g, '.$1').split('.')
    // A name that would reach into every object is no field of ours.
    if (path.some((step) => ['__proto__', 'constructor', 'prototype'].includes(step))) continue
    let at: Record<string, unknown> | unknown[] = whole
    path.forEach((step, depth) => {
      const here = at as Record<string, unknown>
      if (depth === path.length - 1) {
        const before = here[step]
        here[step] = before === undefined ? value : [before, value].flat()
        return
      }
      here[step] ??= /^\d+$/.test(path[depth + 1] ?? '') ? [] : {}
      at = here[step] as Record<string, unknown>
    })
  }
  return whole
}
