import type { SkipReason } from '@/lib/forms/score-form'

// Not imported from the form: zod would come along, and it is many times the size of this page.
export const COMMENT_LENGTH = 1000
export type { SkipReason }
