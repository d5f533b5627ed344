import * as z from 'zod'
import { isDoseUnit } from '@/lib/drink/unit'
import { amount, brix, celsius, countFromZero, density, note, number, whole } from './fields'
import { THOUSANDTHS } from './number-fields'

/** g of liquid that a gram of what is strained out keeps back: leaves and zest several times their weight. */
export const RETENTION = Object.freeze({ least: 0, most: 50, step: 0.001 })

const input = z
  .object({
    part: z
      .string()
      .regex(/^(ingredient|preparation):.+$/, 'Choose what it is.')
      .optional(),
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

/** How a preparation is made: what goes in, what is done, what it is cooked to, how it is kept. */
export const FormulaForm = z
  .object({
    inputs: z.array(z.preprocess((line) => line ?? {}, input)).default([]),
    steps: z
      .array(
        z.preprocess(
          (step) => step ?? {},
          z.object({
            text: note(300),
            minutes: countFromZero('Type minutes.', 10_080, 'This is more than a week.').optional(),
          }),
        ),
      )
      .default([]),
    target: amount(undefined, THOUSANDTHS).optional(),
    brix: brix().optional(),
    retention: number(RETENTION, {
      empty: 'Type g per g.',
      'too-much': 'Nothing keeps back fifty times its weight: look at the unit.',
    }).optional(),
    storage: celsius(-40, 100).optional(),
    keepsHours: whole('Type hours.', 8760, 'This is more than a year.').optional(),
    note: note(),
  })
  .superRefine((formula, context) => {
    const say = (path: string, message: string) => context.addIssue({ code: 'custom', path: [path], message })
    const lines = formula.inputs.filter((line) => line.part && line.amount)
    if (lines.length === 0) say('inputs', 'A formula needs at least one input.')
    else if (lines.every((line) => line.isStrainedOut))
      say('inputs', 'Something must stay in: what is it infused into?')
    if (formula.brix !== undefined && formula.brix === 0)
      say('brix', 'Type degrees Brix above zero, or leave it empty.')
  })
export type FormulaSent = z.infer<typeof FormulaForm>
