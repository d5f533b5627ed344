import { randomBytes } from 'node:crypto'

/**
 * @typedef {object} House  what the door knows of the house
 * @property {boolean} isDev  `next dev` evaluates code and keeps a socket open
 * @property {string | null} publicUrl  origin, when one is set
 * @property {readonly string[]} proxies  addresses whose word about who asks is believed
 */

/**
 * Nothing is fetched from anywhere but this server, no script runs that this answer did not name, and no style counts that
 * is written in a page. No upgrade to https: phones come by plain http.
 *
 * @param {string} nonce
 * @param {boolean} isDev
 */
function contentPolicy(nonce, isDev) {
  return [
    "default-src 'self'",
    `script-src 'self' 'nonce-${nonce}'${isDev ? " 'unsafe-eval'" : ''}`,
    ...(isDev ? ["style-src 'self' 'unsafe-inline'"] : ["style-src 'self'", "style-src-attr 'none'"]),
    "img-src 'self' data: blob:",
    "font-src 'self' data:",
    `connect-src 'self'${isDev ? ' ws:' : ''}`,
    "object-src 'none'",
    "base-uri 'none'",
    "form-action 'self'",
    "frame-ancestors 'none'",
  ].join('; ')
}

/**
 * Puts headers on an answer, whoever gives it; what the answer says itself stays.
 *
 * @param {import('node:http').IncomingMessage} request  is told the policy: pages read the nonce of their scripts from it
 * @param {import('node:http').ServerResponse} response
 * @param {House} house
 */
export function guardAnswer(request, response, { isDev, publicUrl }) {
  const policy = contentPolicy(newNonce(), isDev)
  request.headers['content-security-policy'] = policy
  const wanted = {
    'content-security-policy': policy,
    'x-content-type-options': 'nosniff',
    'x-frame-options': 'DENY',
    // not no-referrer: that makes browsers send 'Origin: null' with a form, and secret addresses stay here either way
    'referrer-policy': 'same-origin',
    'permissions-policy': 'camera=(), geolocation=(), microphone=(), browsing-topics=()',
    ...(publicUrl?.startsWith('https:') ? { 'strict-transport-security': 'max-age=31536000' } : {}),
  }
  const { writeHead } = response
  response.writeHead = /** @type {typeof writeHead} */ (
    (/** @type {Parameters<typeof writeHead>} */ ...words) => {
      for (const [name, value] of Object.entries(wanted)) {
        if (!response.hasHeader(name)) response.setHeader(name, value)
      }
      return writeHead.apply(response, words)
    }
  )
}

const CONSONANTS = 'bcdfghjkmnpqrstv'

/** 128 bits. No vowels and no digits: it spells no word and no cup's code, in a page that is searched for either. */
function newNonce() {
  return randomBytes(16)
    .toString('hex')
    .replace(/./g, (digit) => CONSONANTS[parseInt(digit, 16)] ?? '')
}

/** Said by a proxy about who asks; from anybody else it is only something they wrote. */
const FORWARDED = /^(forwarded|x-real-ip|x-forwarded-.+)$/

/**
 * Leaves of what was said about who asks only what is so: `x-forwarded-for` holds one address, the one that asks.
 *
 * @param {import('node:http').IncomingMessage} request
 * @param {readonly string[]} proxies
 */
export function believeProxiesOnly(request, proxies) {
  const { headers } = request
  const peer = plainAddress(request.socket.remoteAddress ?? '')
  const isProxy = proxies.includes(peer)
  const chain = isProxy ? String(headers['x-forwarded-for'] ?? '').split(',') : []
  // the last that is no proxy of ours: what stands before it was written by that one
  const asks = chain.map((one) => plainAddress(one.trim())).findLast((one) => one !== '' && !proxies.includes(one))
  const kept = isProxy ? { proto: headers['x-forwarded-proto'], host: headers['x-forwarded-host'] } : {}
  for (const name of Object.keys(headers)) if (FORWARDED.test(name)) delete headers[name]
  headers['x-forwarded-for'] = asks ?? peer
  if (kept.proto === 'https' || kept.proto === 'http') headers['x-forwarded-proto'] = kept.proto
  if (typeof kept.host === 'string' && isHost(kept.host)) headers['x-forwarded-host'] = kept.host
}

/**
 * An IPv4 address that came by an IPv6 socket, as it is written everywhere else.
 *
 * @param {string} address
 */
function plainAddress(address) {
  return address.replace(/^::ffff:(?=\d+\.)/i, '')
}

/** @param {string} text */
export function isHost(text) {
  return /^([\w.-]{1,253}|\[[0-9a-f:.]{2,45}\])(:\d{1,5})?$/i.test(text)
}

/**
 * True for a visitor by http to a house that has https: another name than the public one, not this computer itself, and
 * nothing said by whoever stands between.
 *
 * @param {import('node:http').IncomingMessage} request  as it came
 * @param {string | null} publicUrl
 */
export function cameByHttp({ headers }, publicUrl) {
  if (!publicUrl?.startsWith('https:') || headers['x-forwarded-proto'] === 'https') return false
  const host = headers.host ?? ''
  const isHere = /^(localhost|127\.\d+\.\d+\.\d+|\[::1\])(:\d+)?$/i.test(host)
  return !isHere && host !== new URL(publicUrl).host
}
