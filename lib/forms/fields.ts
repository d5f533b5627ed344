import * as z from 'zod'
import { AMOUNT_WORDS, parseAmount } from '@/lib/drink/unit'

/** A text that must be there. */
export function words(missing: string, most = 200) {
  return z.string({ error: missing }).trim().min(1, missing).max(most, `Please keep it under ${most} characters.`)
}

/** A longer text that may be left out. */
export function note(most = 2000) {
  return z.string().trim().max(most, `Please keep it under ${most} characters.`).optional()
}

/** An amount above zero as typed, comma or point. Gives the number and what was typed. */
export function amount(missing = AMOUNT_WORDS.empty) {
  return z.string({ error: missing }).transform((typed, context): { value: number; typed: string } => {
    const read = parseAmount(typed)
    if (read.ok && read.value <= 1_000_000) return { value: read.value, typed: typed.trim() }
    context.addIssue({ code: 'custom', message: read.ok ? 'This is more than a tonne.' : AMOUNT_WORDS[read.reason] })
    return z.NEVER
  })
}

const zeroOrMore = /^\d+([.,]\d+)?$/

/** A number that may be zero (a price, a share). */
export function countFromZero(missing: string, most: number, tooMuch: string) {
  return z.string({ error: missing }).transform((typed, context): number => {
    const text = typed.trim()
    const value = Number(text.replace(',', '.'))
    if (!zeroOrMore.test(text))
      context.addIssue({ code: 'custom', message: 'Type a number, zero or more, such as 12.5 or 12,5.' })
    else if (value > most) context.addIssue({ code: 'custom', message: tooMuch })
    else return value
    return z.NEVER
  })
}

const temperatureText = /^[-−–]?\d+([.,]\d+)?$/

/** Degrees Celsius, below zero allowed. */
export function celsius(least: number, most: number) {
  return z.string().transform((typed, context): number => {
    const text = typed.trim()
    const value = Number(text.replace(',', '.').replace(/^[−–]/, '-'))
    if (!temperatureText.test(text))
      context.addIssue({ code: 'custom', message: 'Type a temperature in °C, such as 85 or −18.' })
    else if (value < least || value > most)
      context.addIssue({
        code: 'custom',
        message: `This should lie between ${least} and ${most} °C.`.replaceAll('-', '−'),
      })
    else return value
    return z.NEVER
  })
}
