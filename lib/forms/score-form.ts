import * as z from 'zod'
import { HIGHEST_ANSWER } from '@/lib/panel/question'

/** In whose turn, and the sender's mark on it: the same in every message of a taster's phone. */
const sent = {
  sitting: z.string().regex(/^[\w-]{10,64}$/),
  revision: z.int().min(1).max(1_000_000),
  key: z.string().regex(/^[\w-]{10,64}$/),
}

/** What a message about one cup carries. */
const message = { ...sent, code: z.string().regex(/^\d{3}$/) }

/** One answer about one cup. */
export const ScoreForm = z.strictObject({
  ...message,
  attribute: z.int().min(0).max(99),
  // what the question allows is asked where the question is known
  value: z.int().min(0).max(HIGHEST_ANSWER),
})
export type ScoreMessage = z.infer<typeof ScoreForm>

/** Why a cup is left out; the words are the screen's. */
export const SKIP_REASONS = ['not-for-me', 'spilt-or-missing', 'tastes-spoiled', 'rather-not'] as const
export type SkipReason = (typeof SKIP_REASONS)[number]

export const COMMENT_LENGTH = 1000

/** What else a phone says about a cup. */
export const CupForm = z.discriminatedUnion('act', [
  z.strictObject({ ...message, act: z.literal('code-seen') }),
  z.strictObject({ ...message, act: z.literal('lock') }),
  z.strictObject({ ...message, act: z.literal('skip'), reason: z.enum(SKIP_REASONS) }),
  z.strictObject({ ...message, act: z.literal('comment'), comment: z.string().max(COMMENT_LENGTH) }),
])
export type CupMessage = z.infer<typeof CupForm>

const setMessage = { ...sent, set: z.int().min(1).max(20) }

/** What a phone says about cups that are answered together: all of one question or nothing of it. */
export const SetForm = z.discriminatedUnion('act', [
  z.strictObject({
    ...setMessage,
    act: z.literal('answer'),
    attribute: z.int().min(0).max(99),
    // what the question allows is asked where the question is known
    answer: z.array(z.int().min(1).max(60)).max(15),
  }),
  z.strictObject({ ...setMessage, act: z.literal('lock') }),
  z.strictObject({ ...setMessage, act: z.literal('skip'), reason: z.enum(SKIP_REASONS) }),
])
export type SetMessage = z.infer<typeof SetForm>
