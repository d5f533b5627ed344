import * as z from 'zod'
import { answerOfTicks } from '@/lib/panel/question'
import { PaperOrder } from './paper-order'
import { COMMENT_LENGTH, SKIP_REASONS } from './score-form'

/** What the question allows is asked where the question is known. */
const answer = z
  .string()
  .trim()
  .regex(/^\d{1,3}$/, 'A whole number on the scale, please.')
  .transform(Number)
  .optional()
  .transform((value) => value ?? null)

/** The places of the words that were ticked; the word “none” stands there always, so that a question without a tick is known. */
const ticks = z
  .object({ words: z.union([z.string().transform((one) => [one]), z.array(z.string())]).optional() })
  .optional()
  .transform((all) => all?.words?.flatMap((place) => (/^\d{1,2}$/.test(place) ? [Number(place)] : [])))

/** One cup as it stands on a paper form. */
const PaperCup = z
  .object({
    code: z.string('Which code?').regex(/^\d{3}$/, 'Three digits, please.'),
    /** one place per attribute of the panel, in its order */
    answers: z.array(answer).default([]),
    /** at the places of questions that are answered with words */
    ticks: z.array(ticks).default([]),
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
  .transform(({ ticks: ticked, ...cup }) => ({ ...cup, answers: withTicks(cup.answers, ticked) }))

/** Of a cup that was scored a word without a tick does not apply; of one that was not, nothing is known. */
function withTicks(answers: readonly (number | null)[], ticked: readonly (readonly number[] | undefined)[]) {
  const isScored = answers.some((one) => one !== null) || ticked.some((places) => places && places.length > 0)
  return Array.from({ length: Math.max(answers.length, ticked.length) }, (_, at) => {
    const places = ticked[at]
    if (places === undefined) return answers[at] ?? null
    return isScored ? answerOfTicks(places) : null
  })
}

/** Cups that are answered together, as they stand on a paper form. */
const PaperSet = z
  .object({
    number: z
      .string()
      .regex(/^\d{1,2}$/)
      .transform(Number),
    /** codes as the answer has them, with spaces between; “none”: none of them; empty: left blank */
    answer: z
      .string()
      .trim()
      .regex(/^(none|\d{3}( \d{3})*)$/, 'One of the codes on the sheet, please.')
      .optional()
      .transform((said) => (said === undefined ? null : said === 'none' ? [] : said.split(' '))),
    skip: z
      .enum(SKIP_REASONS)
      .optional()
      .transform((reason) => reason ?? null),
    /** the same of cups that are put in order, place by place */
    order: PaperOrder.optional(),
  })
  .transform(({ order, answer, ...set }) => ({ ...set, answer: answer ?? order ?? null }))

/** One of the three that a taster ticks before the first cup: without them no score is taken. */
const ticked = z.literal('yes', 'Type the scores in only if this is ticked on the paper.')

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
    unaffected: ticked,
    consent: ticked,
    unseen: ticked,
    /** the mark of what paper had said when the page was opened; empty for a sheet not typed in yet */
    was: z
      .string()
      .regex(/^[\w-]{0,64}$/)
      .default(''),
    cups: z.array(PaperCup).default([]),
    sets: z.array(PaperSet).optional(),
  })
  .superRefine(({ cups, sets }, context) => {
    sets?.forEach(({ answer, skip }, at) => {
      if (answer === null || skip === null) return
      const message = 'Either an answer or a reason, not both.'
      context.addIssue({ code: 'custom', path: ['sets', at, 'skip'], message })
    })
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
