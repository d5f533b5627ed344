import { readNumber, type NumberField } from '@/lib/base/typed-number'
import { sayNumber } from '@/lib/forms/number-fields'

/** What a kitchen scale can show, in grams. */
export const shown: NumberField = { least: 0, most: 100_000 }

/** Why this number cannot be taken as it stands; null when it can, or nothing was typed. */
export function numberProblem(typed: string, field: NumberField): string | null {
  const read = readNumber(typed, field)
  return read.ok || read.reason === 'empty' ? null : sayNumber(read, typed, field)
}

/** What was typed; null while it cannot be read, and where nothing is. */
export function numberRead(typed: string, field: NumberField): number | null {
  const read = readNumber(typed, field)
  return read.ok ? read.value : null
}
