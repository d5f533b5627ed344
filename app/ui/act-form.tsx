'use client'

import { FormProvider, getFormProps, useForm, type DefaultValue, type SubmissionResult } from '@conform-to/react'
import { startTransition, useActionState, useEffect, useRef, useState, type ReactNode } from 'react'
import { Notice } from './notice'
import { Button, type ButtonLook } from './button'

/** What an action sends back to its form: problems beside their fields, and everything that was typed. */
export type FormAnswer = SubmissionResult<string[]> | null

export type FormAction = (before: FormAnswer, form: FormData) => Promise<FormAnswer>

/** What a form starts with: texts, and lists or groups of them. */
export type Draft = { readonly [name: string]: string | null | undefined | Draft | readonly (string | Draft)[] }

interface ActFormProps {
  readonly id: string
  readonly action: FormAction
  readonly defaults?: Draft
  /** keep what is typed on this device until it is sent; a name for this form and its subject */
  readonly keep?: string
  readonly submit: string
  readonly submitLook?: ButtonLook
  /** the word in front of what went wrong, where nothing is being saved: "Not opened" */
  readonly refused?: string
  /** further buttons or words beside the submit button */
  readonly beside?: ReactNode
  readonly className?: string
  readonly children?: ReactNode
}

/**
 * A form that loses nothing: it works without script, keeps a draft on the device, and shows each problem beside its field.
 */
export function ActForm({
  id,
  action,
  defaults,
  keep,
  submit,
  submitLook,
  refused = 'Not saved',
  beside,
  className = '',
  children,
}: ActFormProps) {
  const [answer, send, pending] = useActionState(action, null)
  const [draft, setDraft] = useState<Draft | null>(null)
  const [form] = useForm({
    id: draft ? `${id}-draft` : id,
    lastResult: answer,
    defaultValue: (draft ?? defaults) as DefaultValue<Record<string, unknown>>,
  })
  const summary = useRef<HTMLDivElement>(null)
  useKeptDraft(keep, form.id, answer, setDraft)

  useEffect(() => {
    if (answer?.status === 'error') summary.current?.focus()
  }, [answer])

  const problems = answer?.status === 'error' ? (answer.error?.[''] ?? []) : []
  return (
    <FormProvider context={form.context}>
      <form
        key={form.id}
        {...getFormProps(form)}
        action={send}
        className={`grid gap-5 ${className}`}
        onSubmit={(event) => {
          event.preventDefault()
          const submitter = (event.nativeEvent as SubmitEvent).submitter
          const sent = new FormData(event.currentTarget, submitter)
          startTransition(() => send(sent))
        }}
      >
        {draft && (
          <Notice word="Draft">
            What you typed earlier on this device is back.{' '}
            <button
              type="button"
              className="inline-block min-h-6 cursor-pointer text-accent underline"
              onClick={() => {
                if (keep) localStorage.removeItem(keyOf(keep))
                setDraft(null)
              }}
            >
              Start afresh
            </button>
          </Notice>
        )}
        <div ref={summary} tabIndex={-1} role="alert" className="outline-none empty:hidden">
          {answer?.status === 'error' && (
            <Notice look="stop" word={refused}>
              {problems.length > 0
                ? problems.join(' ')
                : 'Please look at the marked fields. Nothing you typed is lost.'}
            </Notice>
          )}
        </div>
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

const keyOf = (keep: string) => `sipwright-draft-${keep}`

function useKeptDraft(keep: string | undefined, formId: string, answer: FormAnswer, restore: (draft: Draft) => void) {
  useEffect(() => {
    if (!keep) return
    const kept = localStorage.getItem(keyOf(keep))
    if (kept) restore(unflatten(JSON.parse(kept) as [string, string][]) as Draft)
    // Only once per form: later changes are this form's own.
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, [keep])

  useEffect(() => {
    const form = keep ? document.getElementById(formId) : null
    if (!keep || !(form instanceof HTMLFormElement)) return
    const save = () => {
      const secret = new Set([...form.querySelectorAll('input[type=password]')].map((x) => x.getAttribute('name')))
      const typed = [...new FormData(form)].filter(
        (entry): entry is [string, string] =>
          typeof entry[1] === 'string' && !entry[0].startsWith('$') && !secret.has(entry[0]),
      )
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
  }, [keep, formId, answer])
}

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
