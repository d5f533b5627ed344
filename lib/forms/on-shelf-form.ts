import { printNumber, readNumber, type NumberField } from '@/lib/base/typed-number'
import { sayNumber } from './number-fields'

/** g that stand on a shelf: nothing, or up to a tonne. */
const SHELF_GRAMS: NumberField = Object.freeze({ least: 0, most: 1_000_000, step: 0.001 })

/** How what was counted stands in its field. @param grams  above or at 0 */
export const printCount = (grams: number): string => printNumber(grams, SHELF_GRAMS)

/** What is asked of one thing on the shelf: what stands in its field, and why it was not taken. */
export interface ShelfField {
  readonly field: string
  readonly typed: string
  readonly problem: string | undefined
  /** g, as typed; null where nobody said: that is not known, and not nothing */
  readonly grams: number | null
}

type Query = Readonly<Record<string, string | undefined>>

/** The field of one thing on the shelf, and the only names that a count is kept from. */
const fieldOf = (id: string): string => `have-${id}`

/** Reads how much is left of one thing, as somebody weighed it. @param id  of the batch or the ingredient */
export function readShelfField(id: string, query: Query): ShelfField {
  const field = fieldOf(id)
  const typed = query[field] ?? ''
  const read = readNumber(typed, SHELF_GRAMS)
  if (read.ok) return { field, typed, problem: undefined, grams: read.value }
  return { field, typed, problem: typed.trim() === '' ? undefined : sayNumber(read, typed, SHELF_GRAMS), grams: null }
}

/** Most fields that are read of what a browser sends: the largest sheet has 300 lines. */
const MOST_FIELDS = 1000

/** What the page of many glasses asks for, out of what its form sends; anything else that comes along is left out. */
export function queryOfMake(sent: Iterable<readonly [string, unknown]>): Readonly<Record<string, string>> {
  const own = [...sent].flatMap(([name, value]) =>
    typeof value === 'string' && /^(count|amount|spare|have-[\w-]{1,40})$/.test(name)
      ? [[name, value.slice(0, 40)] as const]
      : [],
  )
  return Object.fromEntries(own.slice(0, MOST_FIELDS))
}
