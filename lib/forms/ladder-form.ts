import * as z from 'zod'
import { readNumber } from '@/lib/base/typed-number'
import { words } from './fields'
import { sayNumber, THOUSANDTHS } from './number-fields'

/** "20 30 40" or "20; 30,5; 40": two to six numbers, a decimal comma or point in each. */
const levels = z
  .string({ error: 'Type two levels or more, such as 20 30 40.' })
  .transform((typed, context): number[] => {
    const parts = typed.split(/[\s;/]+/).filter((part) => part !== '')
    const read = parts.map((part) => readNumber(part, THOUSANDTHS))
    const asked = parts.flatMap((part, place) => {
      const one = read[place]
      if (!one || one.ok) return []
      return [
        one.reason === 'two-readings' ? sayNumber(one, part, THOUSANDTHS) : `“${part}” is not an amount above zero.`,
      ]
    })
    const [wrong] = asked
    if (wrong !== undefined) context.addIssue({ code: 'custom', message: wrong })
    else if (parts.length < 1 || parts.length > 6)
      context.addIssue({ code: 'custom', message: 'Type one to six levels.' })
    else return read.flatMap((one) => (one.ok ? [one.value] : []))
    return z.NEVER
  })

const several = z.preprocess(
  (sent) => (sent === undefined ? [] : Array.isArray(sent) ? sent : [sent]),
  z.array(z.string()).min(1, 'Choose at least one.').max(6, 'At most six at once.'),
)

const line = z.string({ error: 'Choose a line.' })

/** One thing to vary, all else held. */
export const LadderForm = z.discriminatedUnion('vary', [
  z.object({ vary: z.literal('dose'), line, levels }),
  z.object({ vary: z.literal('ratio'), levels, hold: z.enum(['dose', 'beverage']).default('dose') }),
  z.object({ vary: z.literal('part'), line, parts: several }),
  z.object({ vary: z.literal('swap'), line, parts: several }),
  z.object({ vary: z.literal('method'), methods: several }),
])
export type LadderSent = z.infer<typeof LadderForm>

export const LevelForm = z.object({ name: words('Name the level.', 40) })

/** For each line of the trial, what a level uses instead; empty: the same as tasted. */
export const AlternativesForm = z.object({
  lines: z
    .array(
      z.object({
        id: z.string(),
        part: z
          .string()
          .regex(/^(ingredient|batch):.+$/)
          .optional(),
      }),
    )
    .default([]),
})

const grams = z.number().min(0).max(100_000)

export const WeighingForm = z.strictObject({
  key: z.string().regex(/^[\w-]{8,64}$/),
  glasses: z.int().min(1).max(12),
  weights: z.array(z.strictObject({ position: z.int().min(1).max(200), grams })).max(200),
  /** what grounds were really brewed with: grams, °C and seconds; null where nobody wrote it down */
  brew: z
    .array(
      z.strictObject({
        position: z.int().min(1).max(200),
        dose: grams.nullable(),
        water: grams.nullable(),
        temperature: z.number().min(-20).max(130).nullable(),
        grind: z.string().trim().max(40).nullable(),
        seconds: z.number().min(0).max(1_000_000).nullable(),
      }),
    )
    .max(20)
    .optional(),
})
export type WeighingSent = z.infer<typeof WeighingForm>
export type BrewDone = NonNullable<WeighingSent['brew']>[number]
