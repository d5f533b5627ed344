import * as z from 'zod'

const ticked = (words: string) => z.literal('yes', words)

/** What a taster says before a seat is theirs. */
export const JoinForm = z.object({
  name: z
    .string('Write a first name or a nickname.')
    .trim()
    .min(1, 'Write a first name or a nickname.')
    .max(40, 'At most 40 letters, please.'),
  consent: ticked('Tick this to take part.'),
  unaffected: ticked('Tick this only if it is true. If something concerns you, stop here.'),
  unseen: ticked('Tick this only if it is true.'),
})
export type JoinAnswers = z.infer<typeof JoinForm>
