/**
 * Loaded into the process that answers requests, before anything else (`node --import`). It lets that process end with
 * whoever started it, and soon, with a word to everybody who still waits for an answer.
 */
import { subscribe } from 'node:diagnostics_channel'
import { outliveLostWords } from './say.mjs'

/** for requests in flight; whoever started this process waits a little longer */
const GRACE_MS = 1000
const LOOK_EVERY_MS = 50
const COME_BACK_SECONDS = '5'
const WORDS =
  'The café’s computer is being stopped. What you sent just now may not be kept: look in a moment, and send it again if it is not there.'

/** @type {Map<import('node:http').ServerResponse, import('node:http').IncomingMessage>} */
const waiting = new Map()
/** @type {Set<import('node:http').Server>} */
const servers = new Set()
let isStopping = false

outliveLostWords()

subscribe('http.server.request.start', (message) => {
  const { request, response, server } =
    /** @type {{ request: import('node:http').IncomingMessage, response: import('node:http').ServerResponse, server: import('node:http').Server }} */ (
      message
    )
  servers.add(server)
  waiting.set(response, request)
  response.once('close', () => waiting.delete(response))
  if (isStopping) response.shouldKeepAlive = false
})

for (const signal of /** @type {const} */ (['SIGINT', 'SIGTERM'])) process.on(signal, stop)
process.on('SIGHUP', () => process.kill(process.pid, 'SIGTERM'))
// the other end of this channel is held by whoever started this process, and closed by their end, however violent
process.once('disconnect', () => process.kill(process.pid, 'SIGTERM'))
process.channel?.unref()

function stop() {
  if (isStopping) return
  isStopping = true
  const until = performance.now() + GRACE_MS
  for (const response of waiting.keys()) response.shouldKeepAlive = false
  // what serves may have a way of its own to end, which it takes at the same signal
  const endsItself = process.listenerCount('SIGTERM') > 1
  if (!endsItself) for (const server of servers) server.close()
  const timer = setInterval(() => {
    for (const server of servers) server.closeIdleConnections()
    if (waiting.size === 0 && !endsItself) process.exit(0)
    if (performance.now() < until) return
    clearInterval(timer)
    sendAway()
  }, LOOK_EVERY_MS)
}

/** A little time for the words to leave, then it is over. */
function sendAway() {
  setTimeout(() => process.exit(0), 4 * LOOK_EVERY_MS)
  for (const [response, request] of waiting) {
    if (response.headersSent) continue
    const wantsPage = (request.headers.accept ?? '').includes('text/html')
    const type = wantsPage ? 'text/html; charset=utf-8' : 'application/json'
    response.writeHead(503, {
      'content-type': type,
      'cache-control': 'no-store',
      'retry-after': COME_BACK_SECONDS,
      connection: 'close',
    })
    response.end(
      wantsPage
        ? `<!doctype html><html lang="en"><meta charset="utf-8"><title>Not just now</title><h1>Not just now</h1><p>${WORDS}</p></html>`
        : JSON.stringify({ reason: 'stopping', words: WORDS }),
    )
  }
}
