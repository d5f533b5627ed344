import { randomBytes } from 'node:crypto'
import { ANSWERS, elsewhere, say } from './answers.mjs'
import { hasBody, holdBody, longestBody, withBody } from './body.mjs'
import { believeProxiesOnly, cameByHttp, guardAnswer, isHost } from './headers.mjs'
import { openQueue, QUEUE_LIMITS } from './queue.mjs'

const METHODS = new Set(['GET', 'HEAD', 'POST', 'OPTIONS'])
/** Files that never change, off the disk: they need no turn. */
const STILL = /^\/_next\/static\//
/** An act that leads to another page asks this server for it, with the headers it came with: inside already, it needs no turn. */
const TICKET = 'x-house-ticket'
/** Who sends too much may go on for so long, unread, so that the answer is heard before the line is cut. */
const HEAR_OUT_MS = 1000

/** @typedef {(request: import('node:http').IncomingMessage, response: import('node:http').ServerResponse) => Promise<void>} Handle */

/**
 * Everything that comes from outside passes here before any page or act sees it.
 *
 * @param {Handle} handle
 * @param {import('./headers.mjs').House} house
 * @param {{ limits?: import('./queue.mjs').QueueLimits, note?: (error: unknown) => void }} [how]  note: hears of what
 *   failed without an answer
 * @returns {Handle}
 */
export function openDoor(handle, house, { limits = QUEUE_LIMITS, note = console.error } = {}) {
  const queue = openQueue(limits)
  const ticket = randomBytes(32).toString('base64url')
  return async (request, response) => {
    guardAnswer(request, response, house)
    if (request.headers[TICKET] === ticket && !hasBody(request)) return handle(request, response)
    request.headers[TICKET] = ticket
    const path = pathOf(request.url ?? '')
    if (path === null || !isHost(request.headers.host ?? '')) return say(request, response, ANSWERS.unreadable)
    if (!METHODS.has(request.method ?? '')) return say(request, response, ANSWERS.noSuchMethod)
    if (house.publicUrl !== null && cameByHttp(request, house.publicUrl)) {
      return say(request, response, elsewhere(house.publicUrl))
    }
    believeProxiesOnly(request, house.proxies)
    let whole = request
    if (hasBody(request)) {
      const body = await holdBody(request, longestBody(path))
      if (body === 'broken-off') return void response.destroy()
      if (body === 'too-large') return refuseTheRest(request, response)
      whole = withBody(request, body)
    }
    try {
      if (STILL.test(path)) return await handle(whole, response)
      const how = await queue.run(() => (response.destroyed ? Promise.resolve() : handle(whole, response)))
      if (how === 'busy') say(request, response, ANSWERS.busy)
    } catch (error) {
      note(error)
      say(request, response, ANSWERS.fault)
    }
  }
}

/**
 * @param {import('node:http').IncomingMessage} request
 * @param {import('node:http').ServerResponse} response
 */
function refuseTheRest(request, response) {
  response.shouldKeepAlive = false
  say(request, response, ANSWERS.tooLarge)
  request.resume()
  const cut = setTimeout(() => request.destroy(), HEAR_OUT_MS)
  request.once('close', () => clearTimeout(cut))
}

/**
 * The path of an address that can be read; null for any other.
 *
 * @param {string} url
 */
function pathOf(url) {
  if (!url.startsWith('/') || !URL.canParse(url, 'http://here')) return null
  try {
    const { pathname } = new URL(url, 'http://here')
    decodeURIComponent(pathname)
    return pathname
  } catch {
    return null // a percent sign that begins nothing
  }
}
