import { nanoid } from 'nanoid'
import { HomeAnswerForm, HomeKey } from '@/lib/forms/home-answer-form'
import { answerByLink, type LinkRefusal } from '@/lib/tasks/home/answer-by-link'
import { mayLook } from '@/lib/tasks/home/may-look'
import { readHomeLink, type LinkedSheet } from '@/lib/tasks/home/read-home-link'
import { theAddressFromHome } from '@/lib/tasks/house/public-address'
import { theWorld } from '@/lib/tasks/world'
import { sayNameTime } from '../join/say-name-time'
import { html, type Markup } from '../taste/html'
import { readTyped } from '../taste/read-message'
import { pageReply, seeOther, type Sent } from '../taste/respond'
import { answerFields, type HomeTyped } from './answer-fields'
import { sayHomeSheet } from './say-home-sheet'
import { sheetMarkup } from './sheet-markup'

const style = '/home/home.css'

/** Shows a sheet to whoever holds its link. Changes nothing: chat previews fetch links too. No cookie is set or read. */
export async function showHome(token: string, request: Request): Promise<Response> {
  const said = new URL(request.url).searchParams.get('said')
  return draw(token, request, null, said === 'new' || said === 'known' ? said : null)
}

/** Takes in what somebody at home sends. */
export async function sendHome(token: string, request: Request): Promise<Response> {
  if (theAddressFromHome() === null) return notOpen()
  const form = await readTyped(request)
  if (form === null) return draw(token, request, { values: {}, problems: { form: NO_FORM } }, null)
  const sent = Object.fromEntries([...form].map(([name, value]) => [name, typeof value === 'string' ? value : '']))
  const key = HomeKey.safeParse(sent['key'])
  const read = HomeAnswerForm.safeParse(sent)
  if (!read.success || !key.success) {
    const issues = read.success ? [] : read.error.issues
    const problems = Object.fromEntries(issues.map((issue) => [String(issue.path[0]), issue.message]))
    return draw(
      token,
      request,
      { values: sent, problems: key.success ? problems : { ...problems, form: NO_FORM } },
      null,
    )
  }
  const taken = await answerByLink(theWorld(), token, askerOf(request), { ...read.data, key: key.data })
  if (taken.ok) return seeOther(`/home/${token}?said=${taken.value}`)
  if (taken.reason === 'not-open') return notOpen()
  const seconds = Number(taken.detail?.['seconds'] ?? 60)
  const typed = { values: sent, problems: { form: sayRefusal(taken.reason, seconds) } }
  return draw(token, request, typed, null, { status: 429, retryAfter: seconds })
}

const NO_FORM = 'What was typed did not arrive whole. Look at it once more and send it again.'

function sayRefusal(reason: Exclude<LinkRefusal, 'not-open'>, seconds: number): string {
  return reason === 'full'
    ? 'This sheet takes no more answers. Ask the café for a new one; what you typed stays here.'
    : `Many answers have come within a short time. Wait ${Math.ceil(seconds / 60)} min and send it again: what you typed stays here.`
}

/** The door before the pages lets through one address, the true one. */
const askerOf = (request: Request) => request.headers.get('x-forwarded-for')

/** One and the same for a link that was withdrawn, that never was, and where none is given out. */
function notOpen(): Response {
  const words = html`<main>
    <h1>This link is not open</h1>
    <p>It was withdrawn, or is not whole. Ask the café for a new one.</p>
  </main>`
  return pageReply('Not open', words, { status: 404, style })
}

async function draw(
  token: string,
  request: Request,
  typed: HomeTyped | null,
  said: 'new' | 'known' | null,
  sent: Sent = {},
): Promise<Response> {
  const seconds = mayLook(theWorld(), askerOf(request))
  if (seconds > 0)
    return pageReply('Wait', html`<main><h1>Wait a moment</h1></main>`, { status: 429, retryAfter: seconds, style })
  const linked = theAddressFromHome() === null ? null : await readHomeLink(theWorld(), token)
  if (!linked) return notOpen()
  const words = sayHomeSheet(linked.sheet, linked.zone)
  const body = html`<main>
    ${said === null ? null : html`<p class="box" role="status">${THANKS[said]}</p>`} ${sheetMarkup(words)}
    ${said === null ? answerPart(linked, typed) : null}
  </main>`
  return pageReply(`${words.title}, for home`, body, { ...sent, style })
}

const THANKS = {
  new: 'Thank you: your answer is with the café. To say more, open the link again.',
  known: 'Your answer was with the café already; nothing was added. To say more, open the link again.',
}

function answerPart({ nameDays }: LinkedSheet, typed: HomeTyped | null): Markup {
  const problems = typed?.problems ?? {}
  return html`<section class="screen">
    <h2>How was it?</h2>
    <p>
      The café would like to hear how it went. It is read beside what blind tastings found, and never counted with it.
      Give no name if you want none. ${sayNameTime(nameDays)} To have your name or your words taken out before, tell the
      café. No cookie is set, and nothing else of you is kept.
    </p>
    ${Object.keys(problems).length === 0 ? null : html`<p class="problem" role="alert">${problems['form'] ?? 'Something cannot be taken as it is. It is marked below.'}</p>`}
    <form method="post" novalidate>
      <input type="hidden" name="key" value="${nanoid()}" />
      ${typed === null ? answerFields() : answerFields(typed)}
      <button type="submit">Send it to the café</button>
    </form>
  </section>`
}
