import { readNumber, type NumberField } from '@/lib/base/typed-number'
import { MOST_GRAMS } from '@/lib/drink/contents'
import { sayNumber } from './number-fields'

/** How much of a batch, and what its pot weighs empty: what was typed, why it was not taken, and the grams where it was. */
export interface BatchMassForm {
  readonly typed: { readonly grams: string; readonly pot: string }
  readonly problems: { readonly grams?: string; readonly pot?: string }
  readonly grams: number | null
  readonly pot: number | null
  /** as the last one, though there is a formula */
  readonly asLast: boolean
}

const MASS: NumberField = Object.freeze({ least: 0, most: MOST_GRAMS, aboveZero: true, step: 0.1 })

/** Reads what a page was asked for behind its question mark; a field left empty asks for nothing. */
export function readBatchMassForm(query: Readonly<Record<string, string | undefined>>): BatchMassForm {
  const typed = { grams: query['grams'] ?? '', pot: query['pot'] ?? '' }
  const [grams, pot] = [readMass(typed.grams), readMass(typed.pot)]
  const problems = {
    ...(grams.problem === null ? {} : { grams: grams.problem }),
    ...(pot.problem === null ? {} : { pot: pot.problem }),
  }
  return { typed, problems, grams: grams.value, pot: pot.value, asLast: query['from'] === 'last' }
}

function readMass(typed: string): { readonly value: number | null; readonly problem: string | null } {
  if (typed.trim() === '') return { value: null, problem: null }
  const read = readNumber(typed, MASS)
  return read.ok ? { value: read.value, problem: null } : { value: null, problem: sayNumber(read, typed, MASS) }
}
