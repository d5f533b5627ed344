import { createServer } from 'node:http'
import { outliveLostWords } from '../start/say.mjs'
import { ANSWERS, say } from './answers.mjs'
import { openDoor } from './door.mjs'

/** for requests in flight; whoever started this process waits a little longer */
const GRACE_MS = 1000
/** for words to leave */
const LEAVE_MS = 200
const TIMES = { headersTimeout: 10_000, requestTimeout: 30_000 }
/** a crowd of phones keeps some six connections each */
const MOST_CONNECTIONS = 4000

/**
 * Serves through the door until this process is told to end, or whoever started it is gone: then nobody new is let in,
 * what is being answered gets a second, and the rest is told.
 *
 * @param {number} port
 * @param {import('./door.mjs').Handle} handle
 * @param {import('./headers.mjs').House} house
 * @param {import('node:http').ServerOptions} [times]  how long a request may take to arrive
 * @returns {import('node:http').Server}
 */
export function serveThrough(port, handle, house, times = TIMES) {
  outliveLostWords()
  /** @type {Map<import('node:http').ServerResponse, import('node:http').IncomingMessage>} */
  const waiting = new Map()
  const door = openDoor(handle, house)
  let isStopping = false

  const server = createServer(times, (request, response) => {
    waiting.set(response, request)
    response.once('close', () => waiting.delete(response))
    if (isStopping) response.shouldKeepAlive = false
    void door(request, response)
  })
  server.maxConnections = MOST_CONNECTIONS
  server.on('clientError', refuseUnread)
  server.listen(port)

  function stop() {
    if (isStopping) return
    isStopping = true
    for (const response of waiting.keys()) response.shouldKeepAlive = false
    server.close(() => process.exit(0)) // as soon as the last connection is closed
    server.closeIdleConnections()
    setTimeout(() => {
      for (const [response, request] of waiting) say(request, response, ANSWERS.stopping)
      setTimeout(() => process.exit(0), LEAVE_MS)
    }, GRACE_MS)
  }
  for (const signal of /** @type {const} */ (['SIGINT', 'SIGTERM', 'SIGHUP'])) process.on(signal, stop)
  // the other end of this channel is held by whoever started this process, and closed by their end, however violent
  process.once('disconnect', stop)
  process.channel?.unref()
  return server
}

const UNREADABLE = 'This request cannot be read.'
/**
 * How what is no request is called; anything else is a bad one.
 *
 * @type {ReadonlyMap<string, readonly [status: string, words: string]>}
 */
const REFUSED = new Map([
  ['HPE_HEADER_OVERFLOW', ['431 Request Header Fields Too Large', UNREADABLE]],
  // A browser opens connections beforehand. Its request may cross with the word that one was closed unused: of this status it
  // knows that nothing was read, and asks again by itself (RFC 9110, 15.5.9); any other it takes for the answer.
  ['ERR_HTTP_REQUEST_TIMEOUT', ['408 Request Timeout', 'Nothing whole was asked in time.']],
])

/**
 * What is no request is answered all the same, if anybody listens.
 *
 * @param {Error & { code?: string }} error
 * @param {import('node:stream').Duplex} socket
 */
function refuseUnread(error, socket) {
  if (error.code === 'ECONNRESET' || !socket.writable) return void socket.destroy()
  const [status, words] = REFUSED.get(error.code ?? '') ?? ['400 Bad Request', UNREADABLE]
  const head = [`HTTP/1.1 ${status}`, 'content-type: text/plain; charset=utf-8', 'x-content-type-options: nosniff']
  socket.end([...head, `content-length: ${words.length}`, 'connection: close', '', words].join('\r\n'))
}
