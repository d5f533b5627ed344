import type { SkipReason } from '@/lib/forms/score-form'
import type { SeatState } from '@/lib/panel/blind'
import type { SeatGone } from '@/lib/panel/who-may-taste'
import type { SaveState } from './sender'

export const SKIP_WORDS: Readonly<Record<SkipReason, string>> = {
  'not-for-me': 'Not for me: allergy, diet or health',
  'spilt-or-missing': 'It is spilt, or not here',
  'tastes-spoiled': 'It tastes or smells spoiled',
  'rather-not': 'I would rather not',
}

/** Why this seat takes nothing more from a phone, for the phone and for whoever holds it. */
export const GONE: Readonly<Record<SeatGone, { readonly title: string; readonly text: string }>> = {
  'on-paper': {
    title: 'This seat continues on paper',
    text: 'Ask who serves for the sheet. What this phone has sent counts; nothing more is taken here.',
  },
  'set-aside': {
    title: 'Thank you, nothing more is asked of you here',
    text: 'The café has set this seat aside. What this phone has sent is kept. Ask who serves if you would like to know why, or if you think it a mistake: should the seat go on, load this page again.',
  },
  'knows-too-much': {
    title: 'This seat takes no more answers',
    text: 'The serving list of this panel was opened on this phone, or by who is signed in on it, and with that nobody tastes blind. What was sent before it was opened counts; nothing after it does.',
  },
}

export function sayGone({ title, text }: { readonly title: string; readonly text: string }): string {
  return `${title}. ${text}`
}

/** What the door before the house says on a phone, which sends again by itself: a page is told to load again. */
export const AT_THE_DOOR: Readonly<Record<string, string>> = {
  busy: 'The café’s computer is busy: many ask at once.',
  stopping: 'The café’s computer is being stopped.',
  fault: 'The café’s computer did not manage that.',
}

/** What is true of the answers; nothing is called saved that the café's computer has not confirmed. */
export function saveWords(state: SaveState, lasts: boolean): string {
  if (state.kind === 'saved') return 'Saved'
  if (state.kind === 'sending') return 'Saving…'
  const entries = `${state.count} ${state.count === 1 ? 'entry' : 'entries'} kept`
  if (state.kind === 'troubled') return `${state.words} ${lasts ? `${entries}, sent again by itself.` : KEEP_OPEN}`
  return lasts ? `Waiting for connection, ${entries}` : 'Waiting for connection: keep this page open'
}

const KEEP_OPEN = 'Keep this page open: it sends again by itself.'

/** What is said above the list of what never arrived. */
export function unsentWords(count: number): string {
  if (count === 0) return 'Everything this phone was told has arrived.'
  return count === 1 ? '1 answer did not arrive. Tell who serves:' : `${count} answers did not arrive. Tell who serves:`
}

/** "How do you like the sweetness?"; the first question is about the whole cup. */
export function question({ attributes, asks }: Pick<SeatState, 'attributes' | 'asks'>, position: number): string {
  if (position === 0) return 'How do you like this cup overall?'
  const name = attributes[position] ?? ''
  const lower = /^\p{Lu}\p{Ll}/u.test(name) ? name.charAt(0).toLowerCase() + name.slice(1) : name
  const kind = asks[position]?.kind
  if (kind === 'steps') return `How is the ${lower}?`
  if (kind === 'line') return `How strong is the ${lower}?`
  if (kind === 'words') return `${name}: which of these apply? Tap all that do.`
  return `How do you like the ${lower}?`
}

/** An answer in words, for what never arrived. */
export function sayAnswer({ asks, scale }: Pick<SeatState, 'asks' | 'scale'>, position: number, value: number): string {
  const ask = asks[position]
  if (ask?.kind === 'line') return `${value} of 100`
  if (ask?.kind === 'words') {
    const ticked = ask.words.filter(({ place }) => ((value >> place) & 1) === 1)
    return ticked.map(({ word }) => word).join(', ') || 'none of these'
  }
  return `${(ask?.kind === 'steps' ? ask.steps : scale)[value - 1] ?? ''} (${value})`
}
