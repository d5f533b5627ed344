import { nanoid } from 'nanoid'
import { JoinForm } from '@/lib/forms/join-form'
import { currentUserId } from '@/lib/auth/session'
import { continueSeat, type ContinueRefusal } from '@/lib/tasks/taste/continue-seat'
import { passPhoneOn } from '@/lib/tasks/taste/pass-phone-on'
import { readJoin, type Door } from '@/lib/tasks/taste/read-join'
import { takeSeat, type TakeRefusal } from '@/lib/tasks/taste/take-seat'
import { theWorld } from '@/lib/tasks/world'
import { seatCookie, shownOn, seatTokenOf, ticketCookie, ticketOf } from '../taste/cookies'
import { holderOf } from '../taste/holder'
import { readTyped } from '../taste/read-message'
import { pageReply, seeOther, type Sent } from '../taste/respond'
import { joinForm, type Typed } from './join-form'
import { noticePage } from './notice'
import { standPage } from './stand-page'

/** Shows what stands behind a panel's code or a seat card. Changes nothing: chat previews fetch links too. */
export async function showDoor(door: Door, request: Request): Promise<Response> {
  return drawDoor(door, request, null)
}

/** Takes the seat, goes on with one, passes the phone on, or ends here: whichever button was pressed. */
export async function enterDoor(door: Door, request: Request): Promise<Response> {
  const ticket = ticketOf(request)
  if (ticket === null) return drawDoor(door, request, { name: '', problems: { form: NO_TICKET } })

  const form = await readTyped(request)
  if (form === null) return drawDoor(door, request, { name: '', problems: { form: NO_FORM } })
  const browser = await holderOf(request)
  switch (form.get('act')) {
    case 'stop':
      return noticePage('stopped')
    case 'pass-on':
      await passPhoneOn(theWorld(), browser)
      return seeOther(pathOf(door))
    case 'continue': {
      const by = { browser: browser ?? ticket, userId: await currentUserId(), openings: shownOn(request) }
      const moved = await continueSeat(theWorld(), door.token, by)
      return moved.ok ? seeOther('/taste', [seatCookie(by.browser)]) : refused(moved.reason, door, request)
    }
    default:
      return take(door, request, form, browser ?? ticket)
  }
}

const NO_FORM = 'What was typed did not arrive. Fill it in once more.'
const NO_TICKET = 'This browser did not keep the cookie that holds a seat. Allow cookies for this page and try again.'

async function take(door: Door, request: Request, form: FormData, browser: string): Promise<Response> {
  const read = JoinForm.safeParse(Object.fromEntries(form))
  if (!read.success) {
    const problems = Object.fromEntries(read.error.issues.map((issue) => [String(issue.path[0]), issue.message]))
    return drawDoor(door, request, { name: String(form.get('name') ?? ''), problems })
  }
  const by = { browser, userId: await currentUserId(), openings: shownOn(request), ...addressOf(request) }
  const { name } = read.data
  const taken = await takeSeat(theWorld(), door, { ...by, name })
  if (taken.ok) return seeOther('/taste', [seatCookie(browser)])
  if (taken.reason !== 'many-seats') return refused(taken.reason, door, request)
  const seconds = Number(taken.detail?.['seconds'] ?? 60)
  const sent = { status: 429, retryAfter: seconds }
  return drawDoor(door, request, { name, problems: { form: sayWait(seconds) } }, sent)
}

/** The door before the pages lets through one address, the true one. */
function addressOf(request: Request): { readonly address?: string } {
  const address = request.headers.get('x-forwarded-for')
  return address === null ? {} : { address }
}

function sayWait(seconds: number): string {
  return `Many seats have been taken from this network within a minute. Wait ${seconds === 1 ? 'a second' : `${seconds} seconds`}, tick the boxes again and press “Take a seat” once more: your name stays here. With a seat card from who serves there is no wait.`
}

function refused(
  reason: Exclude<TakeRefusal, 'many-seats'> | ContinueRefusal,
  door: Door,
  request: Request,
): Promise<Response> | Response {
  return reason === 'opened-both-lists' || reason === 'opened-serving-list'
    ? noticePage(reason)
    : drawDoor(door, request, null)
}

async function drawDoor(door: Door, request: Request, typed: Typed | null, sent: Sent = {}): Promise<Response> {
  const read = await readJoin(theWorld(), door, seatTokenOf(request))
  if (!read.ok) return noticePage('not-there')
  const view = read.value
  const cookies = [ticketCookie(ticketOf(request) ?? nanoid(43))]
  if (view.stand !== 'form') return pageReply(view.title, standPage(view, typed, keptPath(door)), { cookies })
  return pageReply(view.title, joinForm(view, typed), { ...sent, cookies })
}

function keptPath(door: Door): string {
  return door.kind === 'card' ? `${pathOf(door)}/kept` : '/taste/kept'
}

function pathOf(door: Door): string {
  return `/${door.kind === 'card' ? 'seat' : 'join'}/${door.token}`
}
