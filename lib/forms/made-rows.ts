import * as z from 'zod'
import { isDoseUnit } from '@/lib/drink/unit'
import { amount, celsius, countFromZero, density, note } from './fields'

/** One thing that goes in. @param part  what may be named, as the form sends it */
const input = (part: RegExp) =>
  z
    .object({
      part: z.string().regex(part, 'Choose what it is.').optional(),
      amount: amount().optional(),
      unit: z.string().refine(isDoseUnit, 'Choose one of the units.').default('g'),
      density: density().optional(),
      /** the part the density was typed for: for any other it does not count */
      densityFor: z.string().optional(),
      temperature: celsius(-40, 100).optional(),
      isStrainedOut: z.literal('on').optional(),
    })
    .superRefine((line, context) => {
      if (line.part && !line.amount) context.addIssue({ code: 'custom', path: ['amount'], message: 'Type an amount.' })
      if (!line.part && line.amount) context.addIssue({ code: 'custom', path: ['part'], message: 'Choose what it is.' })
    })

const step = z.object({
  text: note(300),
  minutes: countFromZero('Type minutes.', 10_080, 'This is more than a week.').optional(),
})

/** What goes into something that is made: ingredients, and what `part` allows beside them. */
export const inputRows = (part: RegExp) => z.array(z.preprocess((line) => line ?? {}, input(part))).default([])

/** What is done, in order. */
export const stepRows = z.array(z.preprocess((one) => one ?? {}, step)).default([])
