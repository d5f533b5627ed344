import * as z from 'zod'
import { LIKING_HIGHEST, LIKING_LOWEST, LIKING_WORDS } from '@/lib/panel/liking'
import { HOME_LONGEST } from './home-answer-text'

/** What the steps of liking are called, 1 to 9: those of the house, asked here of somebody who knows what they made. */
export const homeLikingWords: readonly string[] = LIKING_WORDS

/** A number that stands for nothing: `null`, and the texts as they were typed, empty where there are none. */
const text = (most: number) => z.string().trim().max(most, `Please keep it under ${most} characters.`).default('')

const liking = z
  .string()
  .trim()
  .regex(/^[1-9]?$/, 'Choose one of the nine steps, or none.')
  .transform((step) => (step === '' ? null : Number(step)))
  .default(null)

const answer = {
  liking,
  changed: text(HOME_LONGEST.changed),
  further: text(HOME_LONGEST.further),
  name: text(HOME_LONGEST.name),
}

const NOTHING_SAID = 'Say how you liked it, or what you changed, or anything else.'

function saysSomething(
  said: { readonly liking: number | null; readonly changed: string; readonly further: string },
  context: z.RefinementCtx,
): void {
  if (said.liking === null && said.changed === '' && said.further === '')
    context.addIssue({ code: 'custom', path: ['changed'], message: NOTHING_SAID })
}

/** An answer as a form sends it: by the link, and typed in from paper. */
export const HomeAnswerForm = z.object(answer).superRefine(saysSomething)
export type HomeAnswerTyped = z.infer<typeof HomeAnswerForm>

/** What was made where it was written: a nanoid, or what the script of the file draws. */
export const HomeKey = z.string().regex(/^[\w-]{10,40}$/)

/** An answer that came as a text, once its sum is right: a sum is no promise of what it sums. */
export const HomeAnswerPasted = z.object({
  mark: z.string().regex(/^[A-Z0-9-]{4,20}$/),
  key: HomeKey,
  liking: z.number().int().min(LIKING_LOWEST).max(LIKING_HIGHEST).nullable(),
  changed: z.string().max(HOME_LONGEST.changed),
  further: z.string().max(HOME_LONGEST.further),
  name: z.string().max(HOME_LONGEST.name),
})

export const PastedForm = z.object({
  pasted: z
    .string({ error: 'Paste the text that came.' })
    .trim()
    .min(1, 'Paste the text that came.')
    .max(HOME_LONGEST.pasted, 'This is far longer than an answer from home. Paste one answer at a time.'),
})

export const MakeHomeSheetForm = z.object({ trialId: z.string({ error: 'Choose a trial.' }).min(1).max(200) })
