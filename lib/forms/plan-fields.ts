import * as z from 'zod'
import { number } from './fields'
import { wholeField } from './number-fields'

export const words = (ask: string, most: number) =>
  z.string(ask).trim().min(1, ask).max(most, `Please keep it under ${most} characters.`)

export const maybeWords = (most: number) =>
  z
    .string()
    .trim()
    .max(most, `Please keep it under ${most} characters.`)
    .optional()
    .transform((text) => text || null)

export const wholeNumber = (ask: string, { least, most }: { readonly least: number; readonly most: number }) => {
  const range = `From ${least} to ${most}, please.`
  const whole = `A whole number, please, from ${least} to ${most}.`
  return number(wholeField(most, least), {
    empty: ask,
    'not-a-number': whole,
    'too-many-decimals': whole,
    'too-little': range,
    'too-much': range,
  })
}
