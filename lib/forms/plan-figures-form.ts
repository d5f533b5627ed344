import * as z from 'zod'
import { choiceLimits } from '@/lib/panel/kinds/choice'
import { panelKinds } from '@/lib/panel/kinds/kinds'
import { rankLimits } from '@/lib/panel/kinds/rank'
import { DifferenceFigures } from './difference-figures-form'
import { aims, planLimits, primaryKinds } from '@/lib/panel/plan'

const whole = (least: number, most: number) =>
  z
    .string()
    .trim()
    .regex(/^\d{1,4}$/)
    .transform(Number)
    .pipe(z.number().min(least).max(most))

const points = z
  .string()
  .trim()
  .transform((typed) => Number(typed.replace(',', '.')))
  .pipe(
    z
      .number()
      .min(0.1)
      .max(planLimits.tenths.most / 10),
  )

/** What of a plan, half typed as it may be, its figures are worked out from. What cannot be read is not known. */
export const PlanFiguresForm = z.object({
  recipe: z.string().min(1).max(64),
  cups: whole(planLimits.cups.least, planLimits.cups.most).nullable().catch(null),
  perTaster: whole(planLimits.cupsPerTaster.least, planLimits.cupsPerTaster.most).nullable().catch(null),
  seats: whole(planLimits.seats.least, planLimits.seats.most).nullable().catch(null),
  /** what is asked of tasters */
  asks: z.enum(panelKinds).catch('liking'),
  /** of two cups: the share to be found, in percent */
  share: whole(choiceLimits.share.least, choiceLimits.share.most).nullable().catch(null),
  /** of an order: how many of a hundred put the best above any one other */
  above: whole(rankLimits.share.least, rankLimits.share.most).nullable().catch(null),
  ...DifferenceFigures,
  aim: z.enum(aims).catch('best'),
  kind: z.enum(primaryKinds).catch('all-pairs'),
  difference: points.nullable().catch(null),
  margin: points.nullable().catch(null),
  ml: whole(planLimits.sampleMl.least, planLimits.sampleMl.most).nullable().catch(null),
  /** one of the cups is served twice, hidden */
  twice: z
    .string()
    .optional()
    .transform((word) => Boolean(word)),
})

export type TypedFigures = z.infer<typeof PlanFiguresForm>
