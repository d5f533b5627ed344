import { numberWords } from '@/lib/base/number-words'
import { FOOD_DENSITY } from '@/lib/drink/ingredient-problem'
import { printNumber, readNumber, type NumberField, type NumberReason } from '@/lib/base/typed-number'

/** Most that a whole-number column of the database holds, on every engine. */
export const MOST_KEPT = 2_147_483_647

/** An amount in a unit chosen beside it: what it comes to in milligrams is looked at where the unit is known. */
export const AMOUNT: NumberField = Object.freeze({ least: 0, most: 1_000_000, aboveZero: true })

/** Grams or millilitres, kept to a thousandth. */
export const THOUSANDTHS: NumberField = Object.freeze({ ...AMOUNT, step: 0.001 })

/** g/ml. Cream and oils float, honey and syrups sink: what lies outside is a slip of the mark or of the unit. */
export const DENSITY: NumberField = Object.freeze({ ...FOOD_DENSITY, step: 0.000001 })

export const PERCENT: NumberField = Object.freeze({ least: 0, most: 100, step: 0.01 })

/** Tenths of a point on the nine-point scale. */
export const POINTS: NumberField = Object.freeze({ least: 0.1, most: 7.9, step: 0.1, decimals: 1 })

/** Minutes, two days at most, kept to the second. */
export const MINUTES: NumberField = Object.freeze({ least: 0, most: 2880, aboveZero: true, step: 1 / 60 })

/** ml of one press of a pump; the largest give some 30, so much more is ten presses that nobody divided. */
export const PUMP_ML: NumberField = Object.freeze({ least: 0, most: 60, aboveZero: true, step: 0.001 })

/** g of one part of a ratio; kept with the lines, in a column that holds two kilograms. */
export const PART_GRAMS: NumberField = Object.freeze({ least: 0, most: 2000, aboveZero: true, step: 0.001 })

/** g in a level teaspoon: of the heaviest syrup some 7. */
export const SPOON_GRAMS: NumberField = Object.freeze({ least: 0, most: 20, aboveZero: true, step: 0.001 })

/** W that a glass lets in for each degree between it and the room. */
export const HEAT_LEAK: NumberField = Object.freeze({ least: 0, most: 5, step: 0.001 })

export const temperatureField = (least: number, most: number): NumberField => ({ least, most })

export const wholeField = (most: number, least = 0): NumberField => ({ least, most, step: 1, decimals: 0 })

/** g between two numbers that a scale shows. */
export const DIVISION: NumberField = Object.freeze({ least: 0.001, most: 10, step: 0.001 })

/** A price in a currency with so many decimals; kept in its smallest unit. */
export function moneyField(digits: number): NumberField {
  return { least: 0, most: MOST_KEPT / 10 ** digits, step: 10 ** -digits, decimals: digits }
}

/** The words one field has of its own; what is left out is said in general. */
export type NumberWords = Partial<Record<Exclude<NumberReason, 'two-readings'>, string>>

/** Why a number was not taken, as the sentence beside its field. */
export function sayNumber(
  refused: { readonly reason: NumberReason; readonly detail?: Readonly<Record<string, string>> },
  typed: string,
  field: NumberField,
  words: NumberWords = {},
): string {
  const { reason, detail = {} } = refused
  if (reason === 'two-readings') {
    const [less, more] = [Number(detail['less']), Number(detail['more'])]
    const written = `Write ${printNumber(less, field)} or ${printNumber(more, field)}.`
    return `“${typed.trim()}” can be read twice: ${numberWords(less)}, or ${numberWords(more)}? ${written}`
  }
  const general: Required<NumberWords> = {
    empty: 'Type a number.',
    'not-a-number': 'Type a number, such as 12.5 or 12,5.',
    'not-above-zero': 'The amount must be more than zero.',
    'too-little': field.least === 0 ? 'Type a number, zero or more.' : `At least ${field.least}, please.`,
    'too-much': `At most ${field.most}, please.`,
    'too-many-decimals':
      field.decimals === 0 ? 'A whole number, please.' : `At most ${field.decimals} decimals, please.`,
    'rounds-to-nothing': `This is too little to be kept: ${field.step ?? 0} at least.`,
  }
  return words[reason] ?? general[reason]
}

/** A stored number as its field shows it; nothing where nothing is known. */
export function printed(value: number | null, field: NumberField): string {
  return value === null ? '' : printNumber(value, field)
}

/**
 * The number in an amount that was typed and kept. What would be asked today was read by its decimal mark alone when it was
 * typed: "1.125" was one and an eighth.
 */
export function keptAmount(typed: string): number | null {
  const read = readNumber(typed, AMOUNT)
  const value = read.ok ? read.value : Number(typed.replace(',', '.'))
  return typed.trim() !== '' && Number.isFinite(value) ? value : null
}

/** An amount as it was typed, unless it would be read otherwise today, or asked. */
export function printTyped(typed: string): string {
  const value = keptAmount(typed)
  const read = readNumber(typed, AMOUNT)
  return value === null || (read.ok && read.value === value) ? typed : printNumber(value, AMOUNT)
}
