import * as z from 'zod'

/** Which of the proposals shown is wanted: what it is made of, as the page was told. */
export const InsteadForm = z.object({
  /** ticked: its new allergens were read */
  read: z.literal('yes').optional(),
  proposal: z.string({ error: 'Choose what stands in.' }).max(400, 'This is none of what was proposed.'),
})
