// No `Secure`: phones come by plain http on the café's own network.

/** Holds the token of the browser's seat. Given with a seat, never before. */
const SEAT = 'taster-seat'
/** Shows that a form was asked for by this browser; becomes its token when it takes its first seat. */
const TICKET = 'taster-ticket'

const DAY_SECONDS = 86_400

export function seatTokenOf(request: Request): string | null {
  return tokenIn(request, SEAT)
}

export function ticketOf(request: Request): string | null {
  return tokenIn(request, TICKET)
}

export function seatCookie(token: string): string {
  return `${SEAT}=${token}; Path=/; Max-Age=${30 * DAY_SECONDS}; HttpOnly; SameSite=Lax`
}

/** Strict: a form sent from another site comes without it, and takes no seat. */
export function ticketCookie(token: string): string {
  return `${TICKET}=${token}; Path=/; Max-Age=${DAY_SECONDS}; HttpOnly; SameSite=Strict`
}

function tokenIn(request: Request, name: string): string | null {
  const pairs = (request.headers.get('cookie') ?? '').split(';').map((pair) => pair.trim())
  const value = pairs.find((pair) => pair.startsWith(`${name}=`))?.slice(name.length + 1)
  return value !== undefined && /^[\w-]{43}$/.test(value) ? value : null
}
