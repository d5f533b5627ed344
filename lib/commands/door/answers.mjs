/**
 * What the door itself answers, in words: whoever opens a page gets a page, a program gets JSON. It says `door` where the
 * house says `reason`: a taster's phone gives up an answer that the house refuses, and keeps one that never came so far.
 *
 * @typedef {{ status: number, door: string, title: string, words: string, comeBackSeconds?: number, also?: Record<string, string> }} Answer
 */

/** @type {Readonly<Record<'stopping' | 'busy' | 'fault' | 'tooLarge' | 'unreadable' | 'noSuchMethod', Answer>>} */
export const ANSWERS = Object.freeze({
  stopping: {
    status: 503,
    door: 'stopping',
    title: 'Not just now',
    words:
      'The café’s computer is being stopped. What you sent just now may not be kept: look in a moment, and send it again if it is not there.',
    comeBackSeconds: 5,
  },
  busy: {
    status: 503,
    door: 'busy',
    title: 'Not just now',
    words: 'The café’s computer is busy: many ask at once. Nothing was changed. Try again in a moment.',
    comeBackSeconds: 2,
  },
  fault: {
    status: 500,
    door: 'fault',
    title: 'Not just now',
    words: 'The café’s computer did not manage that. Try again in a moment.',
  },
  tooLarge: {
    status: 413,
    door: 'too-large',
    title: 'Too large',
    words: 'This is larger than anything that can be sent here. Nothing was changed.',
  },
  unreadable: {
    status: 400,
    door: 'unreadable',
    title: 'No such address',
    words: 'This address cannot be read. Was it copied whole?',
  },
  noSuchMethod: {
    status: 405,
    door: 'no-such-method',
    title: 'Not here',
    words: 'This house is read and answered, nothing else.',
    also: { allow: 'GET, HEAD, POST, OPTIONS' },
  },
})

/**
 * For a house that has https, and somebody who came by http: signing in would silently do nothing there.
 *
 * @param {string} publicUrl
 * @returns {Answer}
 */
export function elsewhere(publicUrl) {
  return {
    status: 403,
    door: 'elsewhere',
    title: 'This café has a safe address',
    words: `Come by ${publicUrl} instead: here, everybody on this network could read along.`,
  }
}

/**
 * @param {import('node:http').IncomingMessage} request
 * @param {import('node:http').ServerResponse} response
 * @param {Answer} answer
 */
export function say(request, response, answer) {
  if (response.headersSent) return
  const wantsPage = (request.headers.accept ?? '').includes('text/html')
  response.writeHead(answer.status, {
    'content-type': wantsPage ? 'text/html; charset=utf-8' : 'application/json; charset=utf-8',
    'cache-control': 'no-store',
    ...(answer.comeBackSeconds === undefined ? {} : { 'retry-after': String(answer.comeBackSeconds) }),
    ...answer.also,
  })
  response.end(wantsPage ? page(answer) : JSON.stringify({ door: answer.door, words: answer.words }))
}

/** @param {Answer} answer */
function page({ title, words }) {
  const head = `<meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><meta name="color-scheme" content="light dark"><title>${title}</title>`
  return `<!doctype html><html lang="en"><head>${head}</head><body><main><h1>${title}</h1><p>${words}</p></main></body></html>`
}
