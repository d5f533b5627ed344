import type { SkipReason } from '@/lib/forms/score-form'
import type { SaveState } from './sender'

export const SKIP_WORDS: Readonly<Record<SkipReason, string>> = {
  'not-for-me': 'Not for me: allergy, diet or health',
  'spilt-or-missing': 'It is spilt, or not here',
  'tastes-spoiled': 'It tastes or smells spoiled',
  'rather-not': 'I would rather not',
}

/** What is true of the answers; nothing is called saved that the café's computer has not confirmed. */
export function saveWords({ kind, count }: SaveState, lasts: boolean): string {
  if (kind === 'saved') return 'Saved'
  if (kind === 'sending') return 'Saving…'
  if (!lasts) return 'Waiting for connection: keep this page open'
  return `Waiting for connection, ${count} ${count === 1 ? 'entry' : 'entries'} kept`
}

/** "How do you like the sweetness?"; the first question is about the whole cup. */
export function question(attributes: readonly string[], position: number): string {
  if (position === 0) return 'How do you like this cup overall?'
  const name = attributes[position] ?? ''
  return `How do you like the ${/^\p{Lu}\p{Ll}/u.test(name) ? name.charAt(0).toLowerCase() + name.slice(1) : name}?`
}
