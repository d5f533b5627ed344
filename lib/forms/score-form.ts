import * as z from 'zod'
import { HIGHEST_ANSWER } from '@/lib/panel/question'

/** Which cup, in whose turn, and the sender's mark on it: the same in every message of a taster's phone. */
const message = {
  sitting: z.string().regex(/^[\w-]{10,64}$/),
  code: z.string().regex(/^\d{3}$/),
  revision: z.int().min(1).max(1_000_000),
  key: z.string().regex(/^[\w-]{10,64}$/),
}

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
