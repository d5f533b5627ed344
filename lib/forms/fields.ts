import * as z from 'zod'
import { plain } from '@/lib/base/number-format'
import { readNumber, type NumberField } from '@/lib/base/typed-number'
import {
  AMOUNT,
  DENSITY,
  moneyField,
  PERCENT,
  PUMP_ML,
  sayNumber,
  SPOON_GRAMS,
  temperatureField,
  wholeField,
  type NumberWords,
} from './number-fields'

/** A text that must be there. */
export function words(missing: string, most = 200) {
  return z.string({ error: missing }).trim().min(1, missing).max(most, `Please keep it under ${most} characters.`)
}

/** A longer text that may be left out. */
export function note(most = 2000) {
  return z.string().trim().max(most, `Please keep it under ${most} characters.`).optional()
}

/** A number as typed: every number field of the house is read here. Gives the number and what was typed. */
function typedNumber(field: NumberField, said: NumberWords) {
  return z
    .string({ error: said.empty ?? 'Type a number.' })
    .transform((typed, context): { value: number; typed: string } => {
      const read = readNumber(typed, field)
      if (read.ok) return { value: read.value, typed: typed.trim() }
      context.addIssue({ code: 'custom', message: sayNumber(read, typed, field, said) })
      return z.NEVER
    })
}

/** A number field of which only the number matters. */
export function number(field: NumberField, said: NumberWords = {}) {
  return typedNumber(field, said).transform(({ value }) => value)
}

/** How an amount that cannot be read is asked for again. */
export const amountWords = {
  empty: 'Type an amount.',
  'not-a-number': 'Type a number, such as 12.5 or 12,5 or 1/2.',
  'too-much': 'This is more than a tonne.',
} as const

/** An amount above zero, comma or point. Gives the number and what was typed. */
export function amount(missing: string = amountWords.empty, field: NumberField = AMOUNT) {
  return typedNumber(field, { ...amountWords, empty: missing })
}

const outside = `A food weighs between ${DENSITY.least} and ${DENSITY.most} g per ml.`

/** Grams of a millilitre. */
export function density() {
  return typedNumber(DENSITY, { empty: 'Type g per ml.', 'too-little': outside, 'too-much': outside })
}

/** A number that may be zero. */
export function countFromZero(missing: string, most: number, tooMuch: string, step?: number) {
  const field = { least: 0, most, ...(step === undefined ? {} : { step }) }
  return number(field, { empty: missing, 'too-much': tooMuch })
}

/** What the house measured of its own pump and spoon: ml of a press, g in a level teaspoon. Each may be left out. */
export const doseFields = {
  pump: number(PUMP_ML, {
    empty: 'Type ml.',
    'too-much': 'No pump gives so much at one press: were ten presses divided by ten?',
  }).optional(),
  spoon: number(SPOON_GRAMS, {
    empty: 'Type grams.',
    'too-much': 'No teaspoon holds so much: is it a tablespoon, or were several weighed?',
  }).optional(),
}

/** A share of a hundred, kept to a hundredth of a percent. */
export function percentage() {
  return number(PERCENT, { empty: 'Type a percentage.', 'too-much': 'This is more than 100 %.' })
}

/** g of sugar in 100 g, kept to a hundredth. */
export function brix() {
  return number(PERCENT, { empty: 'Type degrees Brix.', 'too-much': 'There are at most 100 g of sugar in 100 g.' })
}

/** A whole number that may be zero. */
export function whole(missing: string, most: number, tooMuch: string) {
  return number(wholeField(most), { empty: missing, 'too-much': tooMuch })
}

/** The money a café counts in. */
export interface Currency {
  readonly currency: string
  readonly currencyDigits: number
}

/** An amount of money that may be zero, in the café's currency. */
export function price(missing: string, { currency, currencyDigits }: Currency) {
  const field = moneyField(currencyDigits)
  const decimals = currencyDigits === 1 ? 'one decimal' : `${currencyDigits} decimals`
  return number(field, {
    empty: missing,
    'too-much': `At most ${plain(field.most, currencyDigits)} ${currency} can be kept in one figure.`,
    'too-many-decimals': currencyDigits === 0 ? `${currency} has no decimals.` : `${currency} has ${decimals}.`,
    'rounds-to-nothing': `This is less than the smallest amount of ${currency}.`,
  })
}

/**
 * The currency a page was opened with, sent beside its amounts: 350 typed for cents must not be kept as 350 yen.
 *
 * @param field  where it is said
 */
export function sameCurrency({ currency }: Currency, field: string) {
  return (sent: { readonly currency?: string | undefined }, context: z.RefinementCtx) => {
    if (sent.currency !== undefined && sent.currency !== currency)
      context.addIssue({
        code: 'custom',
        path: [field],
        message: `The café counts in ${currency} since this page was opened, not in ${sent.currency}. Load it again.`,
      })
  }
}

/** Degrees Celsius, below zero allowed. */
export function celsius(least: number, most: number) {
  const between = `This should lie between ${least} and ${most} °C.`.replaceAll('-', '−')
  return number(temperatureField(least, most), {
    'not-a-number': 'Type a temperature in °C, such as 85 or −18.',
    'too-little': between,
    'too-much': between,
  })
}
