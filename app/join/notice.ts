import { html, type Markup } from '../taste/html'
import { pageReply } from '../taste/respond'

export type Notice =
  | 'not-there'
  | 'nothing-kept'
  | 'stopped'
  | 'opened-serving-list'
  | 'opened-both-lists'
  | 'no-seat'
  | 'seat-moved'
  | 'phone-passed-on'

const NOTICES: Readonly<Record<Notice, { status: number; title: string; text: readonly string[] }>> = {
  'not-there': {
    status: 404,
    title: 'Nothing stands behind this code',
    text: ['Scan the code on the panel’s poster or on your seat card once more, or ask who serves.'],
  },
  'nothing-kept': {
    status: 404,
    title: 'Nothing is kept here',
    text: ['Nobody has taken this seat, or there is no such card.'],
  },
  stopped: {
    status: 200,
    title: 'Thank you for stopping here',
    text: [
      'You have taken no seat, and nothing about you has been kept.',
      'Please do not taste any of the cups. If you have tasted one already and something concerns you, tell who serves now; if you feel unwell, get medical help.',
      'You may close this page.',
    ],
  },
  'opened-serving-list': {
    status: 403,
    title: 'You know too much to taste',
    text: [
      'You, or somebody on this browser, have opened the serving list of this panel: which jug was poured under which code. Whoever has seen it cannot taste blind.',
      'You can still serve, or watch the panel. If it was not you, taste on another phone, or ask for a paper sheet.',
    ],
  },
  'opened-both-lists': {
    status: 403,
    title: 'You know too much to taste',
    text: [
      'You, or somebody on this browser, have opened both lists of this panel: which drink went into which jug, and which jug was poured under which code. Whoever has seen both cannot taste blind.',
      'You can still serve, or watch the panel. If it was not you, taste on another phone, or ask for a paper sheet.',
    ],
  },
  'no-seat': {
    status: 404,
    title: 'This phone holds no seat',
    text: ['Scan the panel’s code, or the card at your seat, to take one.'],
  },
  'seat-moved': {
    status: 410,
    title: 'This seat has moved to another phone',
    text: ['Go on there: what this phone had sent is kept. If nobody at your seat has done this, tell who serves.'],
  },
  'phone-passed-on': {
    status: 410,
    title: 'This phone has been passed on',
    text: ['The seat before stays as it was sent. The next taster scans the panel’s code to take a seat.'],
  },
}

/** One calm sheet with nothing to press. */
export function noticePage(notice: Notice): Response {
  const { status, title, text } = NOTICES[notice]
  return pageReply(
    title,
    sheet(
      html`<h1>${title}</h1>
        ${text.map((line) => html`<p>${line}</p>`)}`,
    ),
    { status },
  )
}

export function sheet(content: Markup): Markup {
  return html`<main class="sheet">${content}</main>`
}
