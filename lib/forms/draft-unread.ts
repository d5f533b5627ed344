import { readNumber, type NumberField } from '@/lib/base/typed-number'
import { amountWords } from './fields'
import {
  AMOUNT,
  MINUTES,
  DENSITY,
  PART_GRAMS,
  PERCENT,
  sayNumber,
  temperatureField,
  THOUSANDTHS,
} from './number-fields'

/** A line of a sheet being typed that cannot be counted yet. `number` as the page counts lines: the first is 1. */
export interface UnreadLine {
  readonly row: string
  readonly number: number
  /** why, in the words that saving would say */
  readonly message: string
}

const LINE_FIELDS: readonly (readonly [name: string, label: string, field: NumberField])[] = [
  ['amount', 'Target', AMOUNT],
  ['density', 'Density', DENSITY],
  ['weighed', 'Weighed', THOUSANDTHS],
  ['tolerance', 'Tolerance', THOUSANDTHS],
  ['temperature', 'Temperature', temperatureField(-40, 100)],
]

const SHEET_FIELDS: readonly (readonly [name: string, label: string, field: NumberField])[] = [
  ['partGrams', 'grams of one part', PART_GRAMS],
  ['ratio', 'brew ratio', THOUSANDTHS],
  ['retention', 'liquid kept by the grounds', THOUSANDTHS],
  ['extraction', 'extraction', PERCENT],
  ['strength', 'dissolved solids', PERCENT],
  ['waterTemperature', 'brewing water', temperatureField(0, 100)],
  ['brewMinutes', 'brewing time', MINUTES],
  ['coffeeTemperature', 'temperature of the coffee', temperatureField(-5, 100)],
  ['iceTemperature', 'temperature of the ice', temperatureField(-40, 0)],
]

const refusalOf = (typed: string, field: NumberField): string | null => {
  if (typed.trim() === '') return null
  const read = readNumber(typed, field)
  return read.ok ? null : sayNumber(read, typed, field, amountWords)
}

/** What in a line cannot be read as it stands; null where all can. @param typed  what stands in a field of the line */
export function unreadInLine(typed: (name: string) => string): string | null {
  for (const [name, label, field] of LINE_FIELDS) {
    const refusal = refusalOf(typed(name), field)
    if (refusal !== null) return `${label}: ${refusal}`
  }
  return typed('amount').trim() === '' ? `Target: ${amountWords.empty}` : null
}

/** Which numbers above and below the lines cannot be read: the figures go on as if they were empty, so they must be named. */
export function unreadOnSheet(typed: (name: string) => string): readonly string[] {
  return SHEET_FIELDS.flatMap(([name, label, field]) => (refusalOf(typed(name), field) === null ? [] : [label]))
}
