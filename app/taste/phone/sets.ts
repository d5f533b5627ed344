import type { BlindSet, SeatState } from '@/lib/panel/blind'
import type { Draft, Parcel } from './parcel'

type SetMessage = Extract<Parcel['message'], { readonly set: number }>

/** What is kept of a set, and of the cups in it, once a message is laid over it. */
export function withSetMessage(state: SeatState, message: SetMessage): SeatState {
  const set = state.sets?.find(({ number }) => number === message.set)
  if (!set) return state
  const now = changed(set, message)
  const { locked, skipped, positions } = now
  return {
    ...state,
    sets: state.sets?.map((one) => (one === set ? now : one)) ?? [],
    cups: state.cups.map((cup) => (locked && positions.includes(cup.position) ? { ...cup, locked, skipped } : cup)),
  }
}

function changed(set: BlindSet, message: SetMessage): BlindSet {
  if (message.act === 'lock') return { ...set, locked: true }
  if (message.act === 'skip') return { ...set, locked: true, skipped: true }
  const { attribute, answer, revision } = message
  if ((set.answers[attribute]?.revision ?? 0) > revision) return set
  return { ...set, answers: set.answers.map((old, place) => (place === attribute ? { answer, revision } : old)) }
}

/** What stands in the café's book for an answer that was sent: a newer one may have been there already. */
export function setInstead(message: SetMessage, reply: Readonly<Record<string, unknown>>): SetMessage | null {
  const { answer, revision } = reply
  if (message.act !== 'answer' || !Array.isArray(answer) || typeof revision !== 'number') return null
  const isSame = String(answer) === String(message.answer) && revision === message.revision
  return isSame ? null : { ...message, answer: answer as number[], revision }
}

export function knownSetRevision(state: SeatState, draft: Extract<Draft, { readonly set: number }>): number {
  if (draft.act !== 'answer') return 0
  return state.sets?.find(({ number }) => number === draft.set)?.answers[draft.attribute]?.revision ?? 0
}

/** The set that a cup is answered in; null where it is answered by itself. */
export function setOf(state: SeatState, cup: number): BlindSet | null {
  const position = state.cups[cup]?.position ?? 0
  return state.sets?.find(({ positions }) => positions.includes(position)) ?? null
}

/** Codes of a set in the order of tasting. */
export function codesOf(state: Pick<SeatState, 'cups'>, { positions }: Pick<BlindSet, 'positions'>): string[] {
  return positions.map((at) => state.cups.find(({ position }) => position === at)?.code ?? '')
}

/** "3 1 4 and 9 0 2", "3 1 4, 9 0 2 and 7 7 1" */
export function andAll(codes: readonly string[]): string {
  const last = codes.at(-1) ?? ''
  return codes.length > 1 ? `${codes.slice(0, -1).join(', ')} and ${last}` : last
}
