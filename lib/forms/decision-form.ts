import * as z from 'zod'
import { words } from './fields'

export const DecisionForm = z
  .object({
    kind: z.enum(['adopt', 'keep', 'test-again'], { error: 'Choose what is decided.' }),
    trialId: z.string().optional(),
    reason: words('Say why: someone will ask in a year.', 1000),
  })
  .superRefine((sent, context) => {
    if (sent.kind === 'adopt' && !sent.trialId)
      context.addIssue({ code: 'custom', path: ['trialId'], message: 'Choose the trial to adopt.' })
  })
export type DecisionSent = z.infer<typeof DecisionForm>
