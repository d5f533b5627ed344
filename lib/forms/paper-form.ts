import * as z from 'zod'
import { LIKING_HIGHEST, LIKING_LOWEST } from '@/lib/panel/liking'
import { COMMENT_LENGTH, SKIP_REASONS } from './score-form'

const step = z
  .string()
  .regex(/^\d$/, { error: 'From 1 to 9, please.', abort: true })
  .transform(Number)
  .refine((value) => value >= LIKING_LOWEST && value <= LIKING_HIGHEST, 'From 1 to 9, please.')
  .optional()
  .transform((value) => value ?? null)

/** One cup as it stands on a paper form. */
const PaperCup = z.object({
  code: z.string('Which code?').regex(/^\d{3}$/, 'Three digits, please.'),
  /** one place per attribute of the panel, in its order */
  answers: z.array(step).default([]),
  skip: z
    .enum(SKIP_REASONS)
    .optional()
    .transform((reason) => reason ?? null),
  comment: z
    .string()
    .trim()
    .max(COMMENT_LENGTH, `Please keep it under ${COMMENT_LENGTH} characters.`)
    .optional()
    .transform((text) => text || null),
})

export const PaperForm = z
  .object({
    seat: z
      .string()
      .regex(/^\d{1,3}$/)
      .transform(Number),
    name: z
      .string('Write the name on the paper.')
      .trim()
      .min(1, 'Write the name on the paper.')
      .max(40, 'At most 40 letters, please.'),
    agreed: z.literal('yes', 'Type the scores in only if the paper says so.'),
    /** the mark of what paper had said when the page was opened; empty for a sheet not typed in yet */
    was: z
      .string()
      .regex(/^[\w-]{0,64}$/)
      .default(''),
    cups: z.array(PaperCup).default([]),
  })
  .superRefine(({ cups }, context) => {
    cups.forEach((cup, at) => {
      const scored = cup.answers.some((value) => value !== null)
      if (cup.skip && scored) {
        context.addIssue({
          code: 'custom',
          path: ['cups', at, 'skip'],
          message: 'Either scores or a reason, not both.',
        })
      }
      if (scored && cup.answers[0] === null) {
        context.addIssue({
          code: 'custom',
          path: ['cups', at, 'answers', 0],
          message: 'Overall liking is always asked: type it too.',
        })
      }
    })
  })
export type PaperTyped = z.infer<typeof PaperForm>
