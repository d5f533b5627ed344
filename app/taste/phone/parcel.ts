import type { CupMessage, ScoreMessage, SetMessage } from '@/lib/forms/score-form'

type Written<Message> = Message extends unknown ? Omit<Message, 'key' | 'revision'> : never

/** What a tap says, before it is given its key and its revision. */
export type Draft = Written<ScoreMessage> | Written<CupMessage> | Written<SetMessage>

/** One message on its way: kept on the phone from the tap until the café's computer has said that it has it. */
export type Parcel = {
  /** place in the queue */
  readonly id: number
  readonly sitting: string
  readonly message: ScoreMessage | CupMessage | SetMessage
}

/** Answers that replace one another carry one mark; their revisions count up under it. */
export function markOf(draft: Draft): string {
  if ('set' in draft) return `${draft.sitting} set ${draft.set} ${draft.act}`
  return `${draft.sitting} ${draft.code} ${'act' in draft ? draft.act : draft.attribute}`
}

export function pathOf(parcel: Parcel): string {
  if ('set' in parcel.message) return '/taste/sets'
  return 'act' in parcel.message ? '/taste/cup' : '/taste/scores'
}

/** 128 random bits. `crypto.randomUUID` is missing on plain http; `getRandomValues` is not. */
export function newKey(): string {
  return [...crypto.getRandomValues(new Uint8Array(16))].map((byte) => byte.toString(16).padStart(2, '0')).join('')
}
