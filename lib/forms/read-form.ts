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

/**
 * Parses a sent form at the door. Parsing does nothing else; what cannot be read comes back with words beside each field.
 */
export function readForm<Value>(form: FormData, schema: ZodType<Value>): Read<Value> {
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
