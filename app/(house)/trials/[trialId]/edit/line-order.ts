import type { FormValues } from '@/lib/forms/saved-elsewhere'

/** The rows with one of them a place up or down; unchanged where there is no such place. */
export function moved(rows: readonly number[], row: number, by: -1 | 1): readonly number[] {
  const at = rows.indexOf(row)
  const other = rows[at + by]
  if (at < 0 || other === undefined) return rows
  return rows.map((one) => (one === row ? other : one === other ? row : one))
}

/** The rows with a new one below another. */
export function insertedBelow(rows: readonly number[], row: number, fresh: number): readonly number[] {
  return rows.flatMap((one) => (one === row ? [one, fresh] : [one]))
}

const isRow = (value: unknown): value is FormValues =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

/**
 * What stands in the sheet, with one line twice: the copy below it. What was weighed belongs to the line alone.
 *
 * @param rows  the numbers of the lines in the order of the page; those the typed sheet holds beside were removed
 */
export function withCopyOf(typed: FormValues, rows: readonly number[], row: number): FormValues {
  const sent = Array.isArray(typed['lines']) ? typed['lines'] : []
  const lines = rows.flatMap((one) => {
    const line: unknown = sent[one]
    const kept = isRow(line) ? line : {}
    return one === row ? [kept, { ...kept, weighed: '' }] : [kept]
  })
  return { ...typed, lines: lines.map((line, place) => ({ ...line, place: String(place) })) }
}
