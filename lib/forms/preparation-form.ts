import * as z from 'zod'
import { written } from '@/lib/drink/figure'
import { measuredHeatLeak } from '@/lib/drink/ice'
import { densityProblems } from '@/lib/drink/ingredient-problem'
import {
  amount,
  brix,
  celsius,
  doseFields,
  density,
  note,
  number,
  percentage,
  price,
  sameCurrency,
  whole,
  words,
  type Currency,
} from './fields'
import { inputRows, stepRows } from './made-rows'
import { MINUTES, HEAT_LEAK, THOUSANDTHS } from './number-fields'

const preparationKinds = ['syrup', 'immersion-brew', 'percolation-brew', 'infusion', 'other'] as const

export const PreparationForm = z.object({
  name: words('Name it as its bottle is labelled.', 80),
  kind: z.enum(preparationKinds, { error: 'Choose what it is.' }),
  storage: celsius(-40, 100).optional(),
  keepsHours: whole('Type hours.', 8760, 'This is more than a year.').optional(),
  ...doseFields,
  note: note(),
})
export type PreparationSent = z.infer<typeof PreparationForm>

const clock = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}$/, 'Type a day and a time.')
  .optional()

/** One batch: what went in, what was done, what came out. The mass that came out is weighed, never assumed. */
export const BatchForm = z
  .object({
    /** the version of the formula it was begun from */
    formulaId: z.string().optional(),
    inputs: inputRows(/^(ingredient|batch):.+$/),
    steps: stepRows,
    output: amount(undefined, THOUSANDTHS).optional(),
    brix: brix().optional(),
    solids: percentage().optional(),
    density: density().optional(),
    madeAt: clock,
    discardAt: clock,
    note: note(),
  })
  .superRefine((batch, context) => {
    const say = (path: string, message: string) => context.addIssue({ code: 'custom', path: [path], message })
    if (!batch.inputs.some((line) => line.part && line.amount)) say('inputs', 'A batch needs at least one input.')
    if (batch.madeAt && batch.discardAt && batch.discardAt <= batch.madeAt)
      say('discardAt', 'It is discarded after it is made, not before.')
    for (const { message } of densityProblems('density', 'This batch', batch.density?.value ?? null, null))
      say('density', message)
  })
export type BatchSent = z.infer<typeof BatchForm>

/** A glass or takeaway vessel: its brim in ml, or found by weighing it full of water. */
export const vesselForm = (cafe: Currency) =>
  z
    .object({
      currency: z.string().optional(),
      name: words('Name the vessel.', 80),
      brim: amount('How much does it hold to the brim?', THOUSANDTHS).optional(),
      water: amount(undefined, THOUSANDTHS).optional(),
      fill: amount(undefined, THOUSANDTHS).optional(),
      pack: price('Type a price.', cafe).optional(),
      isClear: z.literal('on').optional(),
      leak: number(HEAT_LEAK, {
        empty: 'Type W per degree.',
        'too-much': 'No glass lets in so much: look at the unit.',
      }).optional(),
      melted: amount(undefined, THOUSANDTHS).optional(),
      minutes: number(MINUTES).optional(),
      room: celsius(1, 50).optional(),
    })
    .superRefine((vessel, context) => {
      const say = (path: string, message: string) => context.addIssue({ code: 'custom', path: [path], message })
      if (!vessel.brim && !vessel.water) say('brim', 'Give the ml to the brim, or the grams of water it holds.')
      if (vessel.brim && vessel.fill && vessel.fill.value > vessel.brim.value)
        say('fill', 'The fill line lies below the brim.')
      if (!vessel.brim && vessel.water && vessel.fill && vessel.fill.value > vessel.water.value * 1.01)
        say('fill', 'The fill line lies below the brim.')
      const { melted, minutes, room } = vessel
      if (melted === undefined && minutes === undefined && room === undefined) return
      if (melted === undefined) say('melted', 'How much ice melted, in grams?')
      if (minutes === undefined) say('minutes', 'After how many minutes?')
      if (room === undefined) say('room', 'How warm was the room, in °C?')
      const leak = heatLeakOf(vessel)
      if (leak !== null && leak > HEAT_LEAK.most)
        say(
          'melted',
          `This would be ${written(leak, 2)} W per degree: no glass lets in so much. Look at grams and minutes.`,
        )
    })
    .superRefine(sameCurrency(cafe, 'pack'))
export type VesselSent = z.infer<ReturnType<typeof vesselForm>>

/** W per degree that the glass lets in, from ice that was strained and weighed; null where one of the three is not said. */
export function heatLeakOf({ melted, minutes, room }: Pick<VesselSent, 'melted' | 'minutes' | 'room'>): number | null {
  if (melted === undefined || minutes === undefined || room === undefined) return null
  return measuredHeatLeak(melted.value, minutes, room)
}
