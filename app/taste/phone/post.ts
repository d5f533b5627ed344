import { pathOf, type Parcel } from './parcel'
import type { Outcome } from './sender'

const PATIENCE_MS = 10_000

/**
 * Sends one parcel. Whatever is not an answer of ours (no line, a sign-in page of the network, a machine that is just
 * starting) counts as not reached, and the parcel stays.
 */
export async function postParcel(parcel: Parcel): Promise<Outcome> {
  const stop = new AbortController()
  const timer = setTimeout(() => stop.abort(), PATIENCE_MS)
  try {
    const response = await fetch(pathOf(parcel), {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(parcel.message),
      cache: 'no-store',
      redirect: 'error',
      signal: stop.signal,
    })
    const reply: unknown = await response.json()
    return readReply(parcel, response.status, reply)
  } catch {
    return { kind: 'unreachable' }
  } finally {
    clearTimeout(timer)
  }
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
