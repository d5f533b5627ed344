import { IncomingMessage } from 'node:http'

const KILOBYTE = 1024
const LONGEST_BODY = 64 * KILOBYTE
/** Where more may be sent than a form holds: a trial file, and a photo of at most 300 kB with the form around it. */
const LONGER = [
  { path: /^\/recipes\/[^/]+\/photos$/, longest: 320 * KILOBYTE },
  { path: /^\/recipes\/[^/]+\/import$/, longest: 1024 * KILOBYTE },
]

/**
 * How many bytes may be sent to an address.
 *
 * @param {string} path
 */
export function longestBody(path) {
  return LONGER.find((one) => one.path.test(path))?.longest ?? LONGEST_BODY
}

/**
 * Waits until a body is there. Counted while it comes: what is too long is refused by its announced length at once,
 * otherwise at the byte that is too many.
 *
 * @param {IncomingMessage} request
 * @param {number} longest  bytes
 * @returns {Promise<Buffer | 'too-large' | 'broken-off'>}
 */
export function holdBody(request, longest) {
  if (Number(request.headers['content-length'] ?? 0) > longest) return Promise.resolve('too-large')
  return new Promise((resolve) => {
    /** @type {Buffer[]} */
    const chunks = []
    let bytes = 0
    const take = (/** @type {Buffer} */ chunk) => {
      bytes += chunk.length
      if (bytes > longest) return done('too-large')
      chunks.push(chunk)
    }
    const whole = () => done(Buffer.concat(chunks))
    const broken = () => done('broken-off')
    /** @param {Buffer | 'too-large' | 'broken-off'} how */
    function done(how) {
      request.off('data', take).off('end', whole).off('close', broken).off('error', broken)
      resolve(how)
    }
    request.on('data', take).on('end', whole).on('close', broken).on('error', broken)
  })
}

/**
 * The same request, its body unread: what was read once cannot be read again by whoever answers.
 *
 * @param {IncomingMessage} request
 * @param {Buffer} body
 */
export function withBody(request, body) {
  const whole = new IncomingMessage(request.socket)
  const { method, url, headers, rawHeaders, httpVersion, httpVersionMajor, httpVersionMinor } = request
  Object.assign(whole, { method, url, headers, rawHeaders, httpVersion, httpVersionMajor, httpVersionMinor })
  whole.complete = true
  whole.push(body)
  whole.push(null)
  return whole
}

/**
 * True where a body is on its way.
 *
 * @param {IncomingMessage} request
 */
export function hasBody({ headers }) {
  return headers['transfer-encoding'] !== undefined || Number(headers['content-length'] ?? 0) > 0
}
