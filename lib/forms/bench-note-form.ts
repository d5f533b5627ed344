import * as z from 'zod'
import { note, whole } from './fields'

const strength = () => whole('Type a number from 0 to 100.', 100, 'The most is 100.').optional()

/** What a maker notes of the own glass: how sweet, strong and full, 0 to 100, and when; each may be left out, not all. */
export const BenchNoteForm = z
  .object({
    sweet: strength(),
    strong: strength(),
    body: strength(),
    minutes: whole('Type whole minutes.', 1440, 'This is more than a day.').optional(),
    text: note(2000),
  })
  .superRefine(({ sweet, strong, body, text }, context) => {
    if ([sweet, strong, body, text].every((one) => one === undefined || one === ''))
      context.addIssue({ code: 'custom', path: ['text'], message: 'Note something: a number or a few words.' })
  })
export type BenchNoteSent = z.infer<typeof BenchNoteForm>
