import type { SubmissionResult } from '@conform-to/react'
import { parseWithZod } from '@conform-to/zod/v4'
import * as z from 'zod'
import { differencesOf, settled, type FormValues, type SavedElsewhere } from './saved-elsewhere'

/** What goes back to a form: problems beside their fields, all that was typed, and what it would have undone. */
export type FormAnswer = SubmissionResult<string[]> & { readonly elsewhere?: SavedElsewhere }

type Read<Value> =
  | {
      readonly ok: true
      readonly value: Value
      /** the mark of what the form was opened with; empty when it carried none */
      readonly opened: string
      /** sends a refusal back beside a field ('' for the whole form), with everything that was typed */
      refuse(field: string, words: string): FormAnswer
      /**
       * Offers what was saved elsewhere meanwhile beside what was typed here.
       *
       * @param stored  as the form's fields hold it, with the mark of it
       * @returns null when nothing differs: then there is nothing to choose, and nothing left to save
       */
      offer(stored: FormValues, opened: string): FormAnswer | null
      /**
       * For a form that adds to what is there: says what came there since it was opened. What was typed stands, under the mark of
       * now: sent again, it is meant.
       */
      tell(words: string, opened: string): FormAnswer
    }
  | { readonly ok: false; readonly answer: FormAnswer }

/** Fields whose content never travels back to the browser. */
const secrets = ['password', 'passwordAgain', 'currentPassword']

/** The longest sheet has 300 lines of eleven fields; rows keep their number when others go, so numbers run ahead of rows. */
const most = { fields: 5000, nameLength: 100, rows: 1000, listsInLists: 2, steps: 5 }

const word = /^[A-Za-z][\w-]*$/
// `length` of a list is a number of rows as well, and the others reach into every object.
const reserved = new Set(['length', '__proto__', 'constructor', 'prototype'])

type Step = { readonly word: string } | { readonly row: number }

/** `lines[3].amount` as its steps; null for a name that no page of ours has. */
function stepsOf(name: string): readonly Step[] | null {
  if (name.length > most.nameLength) return null
  const steps: Step[] = []
  for (const part of name.split('.')) {
    const read = /^([^[\]]+)((?:\[\d+\])*)$/.exec(part)
    const [, said = '', rows = ''] = read ?? []
    if (!word.test(said) || reserved.has(said)) return null
    steps.push({ word: said })
    for (const [, row] of rows.matchAll(/\[(\d+)\]/g)) steps.push({ row: Number(row) })
  }
  const lists = steps.filter((step) => 'row' in step).length
  return lists <= most.listsInLists && steps.length <= most.steps ? steps : null
}

/** Counts the rows that names ask for over a whole form: `a[9].b[9]` asks for ten and ten, once however often it is said. */
class RowCount {
  readonly #longest = new Map<string, number>()
  #all = 0

  /** @returns false when these steps would ask for too many, and then they are not counted */
  takes(steps: readonly Step[]): boolean {
    const longer: [string, number][] = []
    let path = ''
    let all = this.#all
    for (const step of steps) {
      if ('row' in step) {
        const before = this.#longest.get(path) ?? 0
        if (step.row >= before) {
          longer.push([path, step.row + 1])
          all += step.row + 1 - before
        }
      }
      path += 'row' in step ? `[${step.row}]` : `.${step.word}`
    }
    if (all > most.rows) return false
    for (const [list, length] of longer) this.#longest.set(list, length)
    this.#all = all
    return true
  }
}

/** What React adds to a form that is sent without script; it is read before the action runs. */
const frameworks = /^\$ACTION_[\w:]+$/

/**
 * The fields whose names can be trusted to build what they say, and whether that is all of them. `lines[4000000000].amount`
 * is a short name for a list of four thousand million rows, and a few names of lists in lists multiply. `__intent__` and
 * `__state__`, by which the form library is told to build rows by itself, are words no page of ours sends: a list that
 * grows without script would have to be a button with a name of its own.
 */
function readable(form: FormData): { readonly kept: FormData; readonly isWhole: boolean } {
  const kept = new FormData()
  const rows = new RowCount()
  let fields = 0
  let isWhole = true
  for (const [name, value] of form) {
    if (frameworks.test(name)) continue
    if (fields === most.fields) return { kept, isWhole: false }
    const steps = stepsOf(name)
    if (steps && rows.takes(steps)) {
      fields += 1
      kept.append(name, value)
    } else isWhole = false
  }
  return { kept, isWhole }
}

const ELSEWHERE =
  'This was saved elsewhere since you opened it. Nothing you typed is lost: choose what holds, then save.'
const UNREADABLE = 'This form could not be read. Load the page again, please.'

/** Words for the whole form, with what was typed in the fields that could be read. */
function unreadable(kept: FormData): FormAnswer {
  return withoutSecrets(parseWithZod(kept, { schema: z.any().refine(() => false, UNREADABLE) }).reply())
}

/**
 * Parses a sent form at the door. Parsing does nothing else; what cannot be read comes back with words beside each field.
 *
 * @param form  comes from the browser, whatever its type says: an act may be called with anything in its place
 */
export function readForm<Value>(form: FormData, schema: z.ZodType<Value>): Read<Value> {
  if (!(form instanceof FormData)) return { ok: false, answer: unreadable(new FormData()) }
  const { kept, isWhole } = readable(form)
  if (!isWhole) return { ok: false, answer: unreadable(kept) }
  const submission = parseWithZod(kept, { schema })
  if (submission.status !== 'success') return { ok: false, answer: withoutSecrets(submission.reply()) }
  return {
    ok: true,
    value: submission.value,
    opened: String(kept.get('opened') ?? ''),
    refuse: (field, words) =>
      withoutSecrets(
        field === ''
          ? submission.reply({ formErrors: [words] })
          : submission.reply({ fieldErrors: { [field]: [words] } }),
      ),
    offer: (stored, opened) => {
      const differences = differencesOf(settled(submission.payload as FormValues), settled(stored))
      if (differences.length === 0) return null
      const answer = withoutSecrets(submission.reply({ formErrors: [ELSEWHERE] }))
      return { ...answer, elsewhere: { opened, stored, differences } }
    },
    tell: (words, opened) => ({
      ...withoutSecrets(submission.reply({ formErrors: [words] })),
      elsewhere: { opened, stored: {}, differences: [] },
    }),
  }
}

/** The one field of a form that holds no more, as it was typed; nothing of what is no form. */
export function readField(form: FormData, name: string): string {
  const value = form instanceof FormData ? form.get(name) : null
  return typeof value === 'string' ? value : ''
}

/** The file of one field; null where none was chosen, and of what is no form. */
export function readFile(form: FormData, name: string): File | null {
  const value = form instanceof FormData ? form.get(name) : null
  return value instanceof File && value.size > 0 ? value : null
}

function withoutSecrets(answer: FormAnswer): FormAnswer {
  const initialValue = { ...answer.initialValue }
  for (const name of secrets) delete initialValue[name]
  return { ...answer, initialValue }
}
