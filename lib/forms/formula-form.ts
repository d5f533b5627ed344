import * as z from 'zod'
import { amount, brix, celsius, note, number, whole } from './fields'
import { inputRows, stepRows } from './made-rows'
import { THOUSANDTHS } from './number-fields'

/** g of liquid that a gram of what is strained out keeps back: leaves and zest several times their weight. */
export const RETENTION = Object.freeze({ least: 0, most: 50, step: 0.001 })

/** How a preparation is made: what goes in, what is done, what it is cooked to, how it is kept. */
export const FormulaForm = z
  .object({
    inputs: inputRows(/^(ingredient|preparation):.+$/),
    steps: stepRows,
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
