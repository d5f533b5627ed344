import * as z from 'zod'
import { celsius } from './fields'

/** What a thermometer showed, and when; left out: now. The key is the page's own, so that sending again adds nothing. */
export const CoolingForm = z.object({
  key: z.string().regex(/^[\w-]{10,64}$/),
  celsius: celsius(-30, 120),
  at: z
    .string()
    .regex(/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}$/, 'Type a day and a time.')
    .optional(),
})
export type CoolingSent = z.infer<typeof CoolingForm>
