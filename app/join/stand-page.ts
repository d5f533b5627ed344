import type { JoinStand, JoinView } from '@/lib/tasks/taste/read-join'
import { html, type Markup } from '../taste/html'
import type { Typed } from './join-form'
import { sheet } from './notice'

type Stand = Exclude<JoinStand, 'form'>

/** Every state of the door in which there is no form to fill in. */
export function standPage(view: JoinView, typed: Typed | null, keptPath: string): Markup {
  const seat = view.seat === null ? 'a seat' : `seat ${view.seat}`
  const problem = typed?.problems.form ?? null
  return sheet(
    html`<p class="over">${view.title}</p>
      ${problem === null ? null : html`<p class="problem" role="alert">${problem}</p>`}${STANDS[view.stand as Stand](
        seat,
      )}${tells.has(view.stand) ? html`<p><a href="${keptPath}">What is kept of me</a></p>` : null}`,
  )
}

/** Where somebody may have sat down already. */
const tells: ReadonlySet<JoinStand> = new Set([
  'closed',
  'seat-left',
  'begun-elsewhere',
  'holds-this-seat',
  'holds-seat',
])

const STANDS: Readonly<Record<Stand, (seat: string) => Markup>> = {
  'not-open': () =>
    html`<h1>Not open yet</h1>
      <p>The cups are still being prepared. Wait until who serves asks you to begin, then load this page again.</p>`,
  closed: () =>
    html`<h1>This panel has closed</h1>
      <p>No more seats are given. Thank you for coming.</p>`,
  full: () =>
    html`<h1>Every seat is taken</h1>
      <p>Tell who serves: more seats can be added while the panel is open. Then load this page again.</p>`,
  'seat-left': (seat) =>
    html`<h1>Not a free seat</h1>
      <p>This card’s ${seat} was marked as left. Ask who serves for another card.</p>`,
  'on-paper': (seat) =>
    html`<h1>On paper</h1>
      <p>The answers of ${seat} are given on paper. Ask who serves for the sheet, or for another card.</p>`,
  'set-aside': (seat) =>
    html`<h1>Not a free seat</h1>
      <p>This card’s ${seat} takes no more answers. Ask who serves for another card.</p>`,
  'begun-elsewhere': (seat) =>
    html`<h1>Go on with ${seat} here?</h1>
      <p>
        This seat was begun on another phone or by somebody before. Go on only if it is yours: what you have sent stays,
        and the other phone is told that the seat has moved.
      </p>
      <p>If it is not yours, ask who serves for another card.</p>
      <form method="post"><button class="main" name="act" value="continue">Go on with ${seat}</button></form>`,
  'holds-this-seat': (seat) => holdsSeat(seat, html``),
  'holds-seat': (seat) => holdsSeat(seat, html`<p>One phone, one seat at a time.</p>`),
}

function holdsSeat(seat: string, more: Markup): Markup {
  return html`<h1>This phone has ${seat}</h1>
    ${more}
    <p><a class="main" href="/taste">Go on with ${seat}</a></p>
    <details>
      <summary>Somebody else tastes on this phone now</summary>
      <p>
        First go on with ${seat} and see that it says “saved”: answers that still wait on this phone would not be sent.
        Then pass the phone on. What ${seat} has sent stays as it is.
      </p>
      <form method="post"><button class="plain" name="act" value="pass-on">Pass this phone on</button></form>
    </details>`
}
