import * as z from 'zod'

const clock = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}$/, 'Type a day and a time.')
  .optional()

/**
 * A pack that is opened: what tells it from another, when, and by when its own label or the house has it thrown
 * away. The key is the page's own, so that sending again opens no second one.
 */
export const PackForm = z
  .object({
    key: z.string().regex(/^[\w-]{10,64}$/),
    ingredient: z.string({ error: 'Choose what it is.' }).min(1).max(64),
    mark: z.string().trim().max(60, 'Please keep it under 60 characters.').optional(),
    openedAt: clock,
    discardAt: clock,
  })
  .superRefine(({ openedAt, discardAt }, context) => {
    if (openedAt && discardAt && discardAt <= openedAt)
      context.addIssue({ code: 'custom', path: ['discardAt'], message: 'It is discarded after it is opened.' })
  })
export type PackSent = z.infer<typeof PackForm>
