import { readNumber, type NumberField } from '@/lib/base/typed-number'
import { sayNumber } from './number-fields'

/** g that stand on a shelf: nothing, or up to a tonne. */
const SHELF_GRAMS: NumberField = Object.freeze({ least: 0, most: 1_000_000, step: 0.001 })

/** What is asked of one preparation: what stands in its field, and why it was not taken. */
export interface ShelfField {
  readonly name: string
  readonly field: string
  readonly typed: string
  readonly problem: string | undefined
}

/**
 * Reads how much is left on the shelf, as somebody weighed it: g by name. What is left empty is not known, and not nothing.
 *
 * @param names  of the preparations that are asked about, each once
 */
export function readOnShelfForm(
  names: readonly string[],
  query: Readonly<Record<string, string | undefined>>,
): { readonly fields: readonly ShelfField[]; readonly grams: ReadonlyMap<string, number> } {
  const grams = new Map<string, number>()
  const fields = names.map((name, place) => {
    const field = `have${place + 1}`
    const typed = query[field] ?? ''
    const read = readNumber(typed, SHELF_GRAMS)
    if (read.ok) grams.set(name, read.value)
    const problem = read.ok || typed.trim() === '' ? undefined : sayNumber(read, typed, SHELF_GRAMS)
    return { name, field, typed, problem }
  })
  return { fields, grams }
}
