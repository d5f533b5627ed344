import type { SubmissionResult } from '@conform-to/react'
import { parseWithZod } from '@conform-to/zod/v4'
import type { ZodType } from 'zod'

export type FormAnswer = SubmissionResult<string[]>

type Read<Value> =
  | {
      readonly ok: true
      readonly value: Value
      /** sends a refusal back beside a field ('' for the whole form), with everything that was typed */
      refuse(field: string, words: string): FormAnswer
    }
  | { readonly ok: false; readonly answer: FormAnswer }

/** Fields whose content never travels back to the browser. */
const secrets = ['password', 'passwordAgain', 'currentPassword']

const mostFields = 2000
const longestName = 100
const mostRows = 1000

/**
 * Can the names of a sent form be trusted to build what they say? `lines[4000000000].amount` is a short name for a list
 * of four thousand million rows, and every one of them would be looked at. `__intent__` is how the form library is told
 * to build rows by itself: no page of ours does.
 */
function isPlain(form: FormData): boolean {
  const names = [...form.keys()]
  const isShort = (name: string) =>
    name.length <= longestName &&
    name !== '__intent__' &&
    [...name.matchAll(/\[(\d+)\]/g)].every(([, row]) => Number(row) < mostRows)
  return names.length <= mostFields && names.every(isShort)
}

const unreadable: FormAnswer = {
  status: 'error',
  error: { '': ['This form could not be read. Load the page again, please.'] },
}

/**
 * Parses a sent form at the door. Parsing does nothing else; what cannot be read comes back with words beside each field.
 */
export function readForm<Value>(form: FormData, schema: ZodType<Value>): Read<Value> {
  if (!isPlain(form)) return { ok: false, answer: unreadable }
  const submission = parseWithZod(form, { schema })
  if (submission.status !== 'success') return { ok: false, answer: withoutSecrets(submission.reply()) }
  return {
    ok: true,
    value: submission.value,
    refuse: (field, words) =>
      withoutSecrets(
        field === ''
          ? submission.reply({ formErrors: [words] })
          : submission.reply({ fieldErrors: { [field]: [words] } }),
      ),
  }
}

function withoutSecrets(answer: FormAnswer): FormAnswer {
  const initialValue = { ...answer.initialValue }
  for (const name of secrets) delete initialValue[name]
  return { ...answer, initialValue }
}
