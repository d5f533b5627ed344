import type { BlindServing, SeatState } from '@/lib/panel/blind'
import type { Draft, Parcel } from './parcel'
import { knownSetRevision, setInstead, withSetMessage } from './sets'

/** Where the taster is. `attribute` counts from 0, which is liking overall. */
export type Place =
  | { readonly kind: 'welcome' }
  | { readonly kind: 'code'; readonly cup: number }
  | { readonly kind: 'answer'; readonly cup: number; readonly attribute: number }
  | { readonly kind: 'comment'; readonly cup: number }
  /** every cup of a set was found: what is asked about them together */
  | { readonly kind: 'set'; readonly set: number }
  | { readonly kind: 'thanks' }
  | { readonly kind: 'closed' }

/** The last screen this tab showed, so that a reload comes back to it. */
export type Bookmark = { readonly sitting: string; readonly code: string; readonly step: number }

/** What the café knows, with what still waits on this phone laid over it. */
export function withParcels(state: SeatState, parcels: readonly Parcel[]): SeatState {
  return parcels.reduce((sofar, parcel) => withMessage(sofar, parcel.message), state)
}

export function withMessage(state: SeatState, message: Parcel['message']): SeatState {
  if ('set' in message) return withSetMessage(state, message)
  return { ...state, cups: state.cups.map((cup) => (cup.code === message.code ? changed(cup, message) : cup)) }
}

function changed(cup: BlindServing, message: Exclude<Parcel['message'], { set: number }>): BlindServing {
  const { revision } = message
  if (!('act' in message)) {
    if ((cup.answers[message.attribute]?.revision ?? 0) > revision) return cup
    const answer = { value: message.value, revision }
    return { ...cup, answers: cup.answers.map((old, position) => (position === message.attribute ? answer : old)) }
  }
  switch (message.act) {
    case 'code-seen':
      return { ...cup, seen: true }
    case 'lock':
      return { ...cup, locked: true }
    case 'skip':
      return { ...cup, locked: true, skipped: true }
    case 'comment':
      return cup.commentRevision > revision
        ? cup
        : { ...cup, comment: message.comment, commentRevision: revision, commentKept: false }
  }
}

/** What stands in the café's book for an answer that was sent: a newer one may have been there already. */
export function standsInstead(
  message: Parcel['message'],
  reply: Readonly<Record<string, unknown>>,
): Parcel['message'] | null {
  if ('set' in message) return setInstead(message, reply)
  const { value, revision } = reply
  if ('act' in message || typeof value !== 'number' || typeof revision !== 'number') return null
  return value === message.value && revision === message.revision ? null : { ...message, value, revision }
}

/** The revision the café or this page knows for what a draft would replace. */
export function knownRevision(state: SeatState, draft: Draft): number {
  if ('set' in draft) return knownSetRevision(state, draft)
  const cup = state.cups.find(({ code }) => code === draft.code)
  if (!('act' in draft)) return cup?.answers[draft.attribute]?.revision ?? 0
  return draft.act === 'comment' ? (cup?.commentRevision ?? 0) : 0
}

/** The first cup that is not done, at the step of the bookmark or at the first answer that is missing. */
export function placeOf(state: SeatState, bookmark: Bookmark | null, started: boolean): Place {
  const cup = state.cups.findIndex(({ locked }) => !locked)
  const serving = state.cups[cup]
  if (!serving) return { kind: 'thanks' }
  if (!state.open) return { kind: 'closed' }
  if (!serving.seen) {
    const fresh = !started && !state.cups.some(({ seen, locked }) => seen || locked)
    return fresh ? { kind: 'welcome' } : { kind: 'code', cup }
  }
  const set = state.sets?.findIndex(({ positions }) => positions.includes(serving.position)) ?? -1
  if (set >= 0) return placeInSet(state, set)
  const missing = serving.answers.findIndex((answer) => answer === null)
  const furthest = missing === -1 ? serving.answers.length : missing
  const marked = bookmark && bookmark.sitting === state.sitting && bookmark.code === serving.code
  const step = marked ? Math.min(bookmark.step, furthest) : furthest
  return step < serving.answers.length ? { kind: 'answer', cup, attribute: step } : { kind: 'comment', cup }
}

/** Every cup of a set is found and tasted before it is asked about. */
function placeInSet(state: SeatState, set: number): Place {
  const positions = state.sets?.[set]?.positions ?? []
  const cup = state.cups.findIndex(({ position, seen }) => positions.includes(position) && !seen)
  return cup === -1 ? { kind: 'set', set } : { kind: 'code', cup }
}

/** "4 1 7", with spaces that do not break: read digit by digit, kept on one line. */
export function spelled(code: string): string {
  return code.split('').join('\u00a0')
}
