import { servesHttps } from '@/lib/base/env'

// Phones mostly come by plain http on the café's own network, and a secure cookie would never come back that way.
const secure = () => (servesHttps() ? '; Secure' : '')

/** Holds the token of the browser's seat. Given with a seat, never before. */
export const SEAT = 'taster-seat'
/** Shows that a form was asked for by this browser; becomes its token when it takes its first seat. */
const TICKET = 'taster-ticket'

/** Openings of serving lists that this browser has shown, the newest first. */
export const SHOWN = 'lists-shown'

const MOST_SHOWN = 8
const DAY_SECONDS = 86_400

export function seatTokenOf(request: Request): string | null {
  return tokenIn(request, SEAT)
}

export function ticketOf(request: Request): string | null {
  return tokenIn(request, TICKET)
}

export function seatCookie(token: string): string {
  return `${SEAT}=${token}; Path=/; Max-Age=${30 * DAY_SECONDS}; HttpOnly; SameSite=Lax${secure()}`
}

/** Strict: a form sent from another site comes without it, and takes no seat. */
export function ticketCookie(token: string): string {
  return `${TICKET}=${token}; Path=/; Max-Age=${DAY_SECONDS}; HttpOnly; SameSite=Strict${secure()}`
}

export function shownOn(request: Request): readonly string[] {
  return openingsIn(valueIn(request, SHOWN))
}

export function shownCookie(before: string | undefined, openingId: string) {
  const value = [openingId, ...openingsIn(before)].slice(0, MOST_SHOWN).join('.')
  return {
    name: SHOWN,
    value,
    path: '/',
    maxAge: 30 * DAY_SECONDS,
    httpOnly: true,
    sameSite: 'lax' as const,
    secure: servesHttps(),
  }
}

/** @returns null for what cannot be a token */
export function tokenOf(value: string | undefined): string | null {
  return value !== undefined && /^[\w-]{43}$/.test(value) ? value : null
}

function openingsIn(value: string | undefined): readonly string[] {
  return (value ?? '')
    .split('.')
    .filter((id) => /^[\w-]{21}$/.test(id))
    .slice(0, MOST_SHOWN)
}

function tokenIn(request: Request, name: string): string | null {
  return tokenOf(valueIn(request, name))
}

function valueIn(request: Request, name: string): string | undefined {
  const pairs = (request.headers.get('cookie') ?? '').split(';').map((pair) => pair.trim())
  return pairs.find((pair) => pair.startsWith(`${name}=`))?.slice(name.length + 1)
}
