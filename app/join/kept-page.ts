import { nanoid } from 'nanoid'
import { forgetMe, type OwnSeat } from '@/lib/tasks/privacy/forget-taster'
import { theForgottenMarks } from '@/lib/tasks/privacy/the-marks'
import { readKeptOfMe, type Kept, type KeptCup } from '@/lib/tasks/privacy/read-kept'
import { theWorld } from '@/lib/tasks/world'
import { sayMoment } from '@/app/ui/moment'
import { sayKeptCup } from '@/app/ui/say-kept-cup'
import { ticketCookie, ticketOf } from '../taste/cookies'
import { html, type Markup } from '../taste/html'
import { readTyped } from '../taste/read-message'
import { pageReply, seeOther } from '../taste/respond'
import { noticePage, sheet } from './notice'
import { sayNameTime } from './say-name-time'

/** All that is kept of the taster who asks, and the way to have it taken out. */
export async function showKept(own: OwnSeat | null, request: Request): Promise<Response> {
  const kept = own && (await readKeptOfMe(theWorld(), own))
  if (!kept) return noticePage(own?.by === 'card' ? 'nothing-kept' : 'no-seat')
  return pageReply('What is kept of you', keptSheet(kept), { cookies: [ticketCookie(ticketOf(request) ?? nanoid(43))] })
}

/** Takes the name out, and what was written if that is ticked. */
export async function forgetKept(own: OwnSeat | null, request: Request, here: string): Promise<Response> {
  // A form sent from another site comes without the ticket, and takes nothing out.
  if (own === null || ticketOf(request) === null) return showKept(own, request)
  const form = await readTyped(request)
  if (form === null) return showKept(own, request)
  await forgetMe(theWorld(), theForgottenMarks(), own, form.get('words') === 'yes')
  return seeOther(here)
}

function keptSheet(kept: Kept): Markup {
  return sheet(
    html`<p class="over">${kept.panelTitle} · seat ${kept.seat}</p>
      <h1>What is kept of you</h1>
      <dl>
        <dt>Name</dt>
        <dd>${kept.name ?? 'taken out'}</dd>
        <dt>You agreed to take part</dt>
        <dd>${sayMoment(kept.agreedAt, kept.zone)}</dd>
        ${kept.hasBrowser ? row('Phone', 'a mark that this phone shows, no number and no address') : null}
        ${kept.isMember ? row('Team', 'that you were signed in here as one of the team') : null}
        ${kept.onPaper ? row('Paper', 'your answers were typed in from paper') : null}
      </dl>
      ${kept.cups === null ? html`<p>Your answers are shown here once the panel has closed, or before that on the phone that took your seat.</p>` : keptCups(kept.cups)}
      ${kept.name === null ? html`<p>Your name is taken out. What you answered stays without it: nobody can tell any more whose it was.</p>` : null}${hasMore(kept) ? forgetForm(kept) : null}`,
  )
}

function row(term: string, words: string): Markup {
  return html`<dt>${term}</dt>
    <dd>${words}</dd>`
}

function keptCups(cups: readonly KeptCup[]): Markup {
  return html`<h2>Your answers</h2>
    <dl>
      ${cups.map(
        (cup) =>
          html`<dt>Cup ${cup.code}</dt>
            <dd>${sayKeptCup(cup)}</dd>`,
      )}
    </dl>`
}

function hasMore({ name, cups }: Kept): boolean {
  return name !== null || (cups ?? []).some(({ comment }) => comment !== null)
}

function forgetForm({ name, nameDays, cups }: Kept): Markup {
  return html`<h2>Have it taken out</h2>
    ${name === null ? null : html`<p>${sayNameTime(nameDays)} Your answers stay without it.</p>`}
    <form method="post">
      ${
        cups === null
          ? null
          : html`<p class="tick">
              <label><input type="checkbox" name="words" value="yes" /> <span>Take out what I wrote, too</span></label>
            </p>`
      }
      <p><button class="main">Take it out now</button></p>
    </form>`
}
