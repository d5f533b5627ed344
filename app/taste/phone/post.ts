import { pathOf, type Parcel } from './parcel'
import type { Outcome } from './sender'

/** After this long without an answer the café's computer counts as not reached, and the taster is told. */
const PATIENCE_MS = 10_000

const asJson = { method: 'POST', headers: { 'content-type': 'application/json' } }

/** @returns null: no line, a sign-in page of the network, a machine just starting, or no answer in time */
async function send(path: string, init: RequestInit): Promise<{ status: number; reply: unknown } | null> {
  const stop = new AbortController()
  const timer = setTimeout(() => stop.abort(), PATIENCE_MS)
  try {
    const response = await fetch(path, { cache: 'no-store', redirect: 'error', signal: stop.signal, ...init })
    return { status: response.status, reply: await response.json() }
  } catch {
    return null
  } finally {
    clearTimeout(timer)
  }
}

/** Sends one parcel. Whatever is not an answer of ours counts as not reached, and the parcel stays. */
export async function postParcel(parcel: Parcel): Promise<Outcome> {
  const sent = await send(pathOf(parcel), { ...asJson, body: JSON.stringify(parcel.message) })
  return sent ? readReply(parcel, sent.status, sent.reply) : { kind: 'unreachable' }
}

/** Asks for what the café knows, or to pass the phone on: the answer, its refusal in words, or null: not reached. */
export async function ask<Reply>(
  path: string,
  kind: 'get' | 'post',
  isReply: (reply: object) => boolean,
): Promise<Reply | { readonly reason: string; readonly words: string } | null> {
  const sent = await send(path, kind === 'post' ? { ...asJson, body: '{}' } : {})
  if (!sent || sent.status >= 500 || typeof sent.reply !== 'object' || sent.reply === null) return null
  if (isReply(sent.reply)) return sent.reply as Reply
  return 'words' in sent.reply && 'reason' in sent.reply ? (sent.reply as { reason: string; words: string }) : null
}

export function readReply(parcel: Parcel, status: number, reply: unknown): Outcome {
  if (typeof reply !== 'object' || reply === null) return { kind: 'unreachable' }
  const fields = reply as Readonly<Record<string, unknown>>
  if (status === 200 && fields.key === parcel.message.key) return { kind: 'taken', reply: fields }
  const { reason, words } = fields
  if (status >= 400 && status < 500 && typeof reason === 'string' && typeof words === 'string') {
    return { kind: 'refused', reason, words }
  }
  return { kind: 'unreachable' }
}
