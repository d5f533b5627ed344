import { no, ok, type Result } from './result'

/** What a field can hold: this decides which of two readings of a number is meant, and when it has to be asked. */
export interface NumberField {
  readonly least: number
  readonly most: number
  /** the smallest step that is kept: what is above zero and would be kept as zero is refused */
  readonly step?: number
  /** decimals that are kept; more are refused, never rounded. With none at all, a mark is a thousands mark. */
  readonly decimals?: number
  readonly aboveZero?: boolean
}

/** Why a typed number was not taken. */
export type NumberReason =
  | 'empty'
  | 'not-a-number'
  | 'two-readings'
  | 'not-above-zero'
  | 'too-little'
  | 'too-much'
  | 'too-many-decimals'
  | 'rounds-to-nothing'

interface Reading {
  readonly value: number
  /** as typed, trailing zeros counted */
  readonly decimals: number
}

const FRACTIONS: Readonly<Record<string, string>> = { '½': '1/2', '¼': '1/4', '¾': '3/4', '⅓': '1/3', '⅔': '2/3' }

/** A decimal comma or point. */
const DECIMAL = /^(\d*)(?:[.,](\d*))?$/

/** Thousands by blanks, apostrophes, points or commas, then perhaps decimals by another mark; and lakhs: 1,00,000. */
const GROUPED: readonly RegExp[] = [
  /^([1-9]\d{0,2}(?: \d{3})+)(?:[.,](\d*))?$/,
  /^([1-9]\d{0,2}(?:'\d{3})+)(?:[.,](\d*))?$/,
  /^([1-9]\d{0,2}(?:\.\d{3})+)(?:,(\d*))?$/,
  /^([1-9]\d{0,2}(?:,\d{3})+)(?:\.(\d*))?$/,
  /^([1-9]\d?(?:,\d{2})+,\d{3})(?:\.(\d*))?$/,
]

/** Every number the text can be, whatever the field. */
function readingsOf(typed: string): readonly Reading[] {
  const text = typed
    .replace(/[½¼¾⅓⅔]/g, (sign) => ` ${FRACTIONS[sign] ?? ''}`)
    .replace(/[’ʼ]/g, "'")
    .trim()
    .replace(/\s+/g, ' ')
    .replace(/^[−–]/, '-')
  const sign = text.startsWith('-') ? -1 : 1
  const body = sign < 0 ? text.slice(1) : text
  const fraction = /^(?:(\d+) )?(\d+)\/(\d+)$/.exec(body)
  if (fraction) {
    const [whole, over, under] = [Number(fraction[1] ?? 0), Number(fraction[2]), Number(fraction[3])]
    const value = whole + over / under
    return Number.isFinite(value) ? [{ value: sign * value, decimals: Number.isInteger(value) ? 0 : Infinity }] : []
  }
  return [DECIMAL, ...GROUPED].flatMap((form) => {
    const [, whole = '', decimals = ''] = form.exec(body) ?? []
    const value = Number(`${whole.replace(/\D/g, '') || '0'}.${decimals || '0'}`)
    return whole + decimals !== '' && Number.isFinite(value)
      ? [{ value: value === 0 ? 0 : sign * value, decimals: decimals.length }]
      : []
  })
}

/**
 * Which number did the person type into this field?
 *
 *     a decimal comma or point; a fraction (1/2, 1 1/2, ½); thousands by blanks, apostrophes, points or commas
 *
 * "1,500" is one and a half or fifteen hundred, a thousandfold mistake. What the field cannot hold is no reading of it: a
 * density is never 1031, a price in a currency without decimals never 450.000. If two readings are left, it is asked.
 *
 * @param text  as typed; blanks around it are dropped
 * @returns     a number the field can hold, or why not; of two readings, `detail` says both
 *
 * Source   our own rule
 * Checked  test/unit/base/typed-number.test.ts
 */
export function readNumber(text: string, field: NumberField): Result<number, NumberReason> {
  if (text.trim() === '') return no('empty')
  const all = readingsOf(text)
  if (all.length === 0) return no('not-a-number')
  const whole = field.decimals === 0 && all.some(({ decimals }) => decimals === 0)
  const worded = whole ? all.filter(({ decimals }) => decimals === 0) : all
  const held = worded.filter(({ value }) => value >= field.least && value <= field.most)
  const [one = worded[0], other] = held.filter(({ value }, at) => held.findIndex((x) => x.value === value) === at)
  if (one === undefined) return no('not-a-number')
  if (other !== undefined) {
    const [less, more] = [Math.min(one.value, other.value), Math.max(one.value, other.value)]
    return no('two-readings', { less: String(less), more: String(more) })
  }
  return kept(one.value, field)
}

function kept(value: number, { least, most, step, decimals, aboveZero }: NumberField): Result<number, NumberReason> {
  if (aboveZero && value <= 0) return no('not-above-zero')
  if (value < least) return no('too-little')
  if (value > most) return no('too-much')
  if (decimals !== undefined && value !== Number(value.toFixed(decimals))) return no('too-many-decimals')
  if (step !== undefined && value !== 0 && Math.round(value / step) === 0) return no('rounds-to-nothing')
  return ok(value)
}

/**
 * A number as this field shows it: whoever sends it back unchanged is read as they were understood before. A number that
 * could be read twice gets a nought more ("1.125" → "1.1250"), which no thousand has.
 */
export function printNumber(value: number, field: NumberField): string {
  const text = field.decimals === undefined ? String(Number(value.toFixed(9))) : value.toFixed(field.decimals)
  const written = text.replace('-', '\u2212')
  const read = readNumber(written, field)
  return !read.ok && read.reason === 'two-readings' ? `${written}0` : written
}
