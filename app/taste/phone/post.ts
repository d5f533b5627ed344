import { pathOf, type Parcel } from './parcel'
import { AT_THE_DOOR } from './words'
import type { Outcome } from './sender'

/** After this long without an answer the café's computer counts as not reached, and the taster is told. */
const PATIENCE_MS = 10_000

const asJson = { method: 'POST', headers: { 'content-type': 'application/json' } }

type Sent = { readonly status: number; readonly comeBackMs: number; readonly reply: unknown }

/** The café's computer was reached and could not do it just now: its words, with the number of the fault if it has one. */
export type Trouble = { readonly trouble: string }

/** @returns null: no line, a sign-in page of the network, a machine just starting, or no answer in time */
async function send(path: string, init: RequestInit): Promise<Sent | null> {
  const stop = new AbortController()
  const timer = setTimeout(() => stop.abort(), PATIENCE_MS)
  try {
    const response = await fetch(path, { cache: 'no-store', redirect: 'error', signal: stop.signal, ...init })
    const seconds = Number(response.headers.get('retry-after') ?? 0)
    return { status: response.status, comeBackMs: seconds > 0 ? seconds * 1000 : 0, reply: await response.json() }
  } catch {
    return null
  } finally {
    clearTimeout(timer)
  }
}

/** Sends one parcel. Whatever is not an answer of ours counts as not reached, and the parcel stays. */
export async function postParcel(parcel: Parcel): Promise<Outcome> {
  const sent = await send(pathOf(parcel), { ...asJson, body: JSON.stringify(parcel.message) })
  return sent ? readReply(parcel, sent) : { kind: 'unreachable' }
}

/** Asks for what the café knows, or to pass the phone on: the answer, its refusal or trouble in words, or null: not reached. */
export async function ask<Reply>(
  path: string,
  kind: 'get' | 'post',
  isReply: (reply: object) => boolean,
): Promise<Reply | { readonly reason: string; readonly words: string } | Trouble | null> {
  const sent = await send(path, kind === 'post' ? { ...asJson, body: '{}' } : {})
  if (!sent || typeof sent.reply !== 'object' || sent.reply === null) return null
  const trouble = troubleOf(sent)
  if (trouble !== null) return { trouble }
  if (sent.status >= 500) return null
  if (isReply(sent.reply)) return sent.reply as Reply
  return 'words' in sent.reply && 'reason' in sent.reply ? (sent.reply as { reason: string; words: string }) : null
}

export function readReply(parcel: Parcel, sent: Sent): Outcome {
  const { status, reply, comeBackMs } = sent
  if (typeof reply !== 'object' || reply === null) return { kind: 'unreachable' }
  const fields = reply as Readonly<Record<string, unknown>>
  if (status === 200 && fields.key === parcel.message.key) return { kind: 'taken', reply: fields }
  const { reason, words } = fields
  if (status >= 400 && status < 500 && typeof reason === 'string' && typeof words === 'string') {
    return { kind: 'refused', reason, words }
  }
  const trouble = troubleOf(sent)
  return trouble === null ? { kind: 'unreachable' } : { kind: 'troubled', words: trouble, comeBackMs }
}

/** Words of a fault, or of the door before the house, which says `door` where the house gives a reason. */
function troubleOf({ status, reply }: Sent): string | null {
  if (status < 400 || typeof reply !== 'object' || reply === null) return null
  const { door, words } = reply as Readonly<Record<string, unknown>>
  if (typeof words !== 'string' || (status < 500 && typeof door !== 'string')) return null
  return (typeof door === 'string' ? AT_THE_DOOR[door] : undefined) ?? words
}
