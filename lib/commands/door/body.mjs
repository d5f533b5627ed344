const KILOBYTE = 1024
export const LONGEST_BODY = 64 * KILOBYTE
/** Where a trial file is brought in. */
const TRIAL_FILE = { path: /^\/recipes\/[^/]+\/import$/, longest: 1024 * KILOBYTE }

/**
 * How many bytes may be sent to an address.
 *
 * @param {string} path
 */
export function longestBody(path) {
  return TRIAL_FILE.path.test(path) ? TRIAL_FILE.longest : LONGEST_BODY
}

/**
 * Waits until a body is there, and puts it back to be read by whoever answers. Counted while it comes: what is too long
 * is refused by its announced length at once, otherwise at the byte that is too many.
 *
 * @param {import('node:http').IncomingMessage} request
 * @param {number} longest  bytes
 * @returns {Promise<'whole' | 'too-large' | 'broken-off'>}
 */
export function holdBody(request, longest) {
  if (Number(request.headers['content-length'] ?? 0) > longest) return Promise.resolve('too-large')
  return new Promise((resolve) => {
    /** @type {Buffer[]} */
    const chunks = []
    let bytes = 0
    const take = () => {
      for (let chunk = request.read(); chunk !== null; chunk = request.read()) {
        bytes += chunk.length
        if (bytes > longest) return done('too-large')
        chunks.push(chunk)
      }
      if (!request.complete) return
      // put back before the stream says that it has ended, which it does not while it holds something
      if (bytes > 0) request.unshift(Buffer.concat(chunks))
      done('whole')
    }
    const broken = () => done('broken-off')
    /** @param {'whole' | 'too-large' | 'broken-off'} how */
    function done(how) {
      request.off('readable', take).off('close', broken).off('error', broken)
      resolve(how)
    }
    request.on('readable', take).on('close', broken).on('error', broken)
  })
}

/**
 * True where a body is on its way.
 *
 * @param {import('node:http').IncomingMessage} request
 */
export function hasBody({ headers }) {
  return headers['transfer-encoding'] !== undefined || Number(headers['content-length'] ?? 0) > 0
}
