import type { JoinView } from '@/lib/tasks/taste/read-join'
import { html, type Markup } from '../taste/html'
import { cautionsPart } from './cautions-part'
import { DOOR_TICKS } from './door-words'
import { sayNameTime } from './say-name-time'

/** What came back from a form that could not be taken: what was typed, and words beside each field. */
export type Typed = { readonly name: string; readonly problems: Readonly<Record<string, string>> }

/** What the taster is to say of the cups. */
const asked: Readonly<Record<JoinView['kind'], string>> = {
  liking: 'how you like each',
  choice: 'which one you like better',
  rank: 'in which order you like them',
  difference: 'whether you can tell them apart',
}

/** The one page before a seat: what is in the cups, what taking part means, a name. */
export function joinForm(view: JoinView, typed: Typed | null): Markup {
  const problems = typed?.problems ?? {}
  const size = view.sampleMl === null ? '' : `, about ${view.sampleMl} ml each`
  return html`<main class="sheet">
    <p class="over">${view.cafe}${view.seat === null ? null : ` · seat ${view.seat}`}</p>
    <h1>${view.title}</h1>
    <p>
      You are asked to taste ${view.cups} cups${size}, one after the other, and to say ${asked[view.kind]}. It takes
      some minutes.
      ${view.kind === 'difference' ? 'Not everybody can, and nobody is being tested.' : 'There is no right answer.'}
    </p>
    ${Object.keys(problems).length === 0 ? null : html`<p class="problem" role="alert">${problems.form ?? 'Something is still missing. It is marked below.'}</p>`}
    <form method="post" novalidate>
      ${cautionsPart(view.cautions, tick('unaffected', DOOR_TICKS.unaffected, problems))}
      <section>
        <h2>Taking part</h2>
        <ul>
          <li>It is voluntary. You may stop at any time, without a reason: put the phone down and tell who serves.</li>
          <li>
            Kept: the name you give here, your answers and their times; a cookie on this phone holds your seat. The café
            uses the answers to develop this drink. Nobody asks for your full name.
          </li>
          <li>
            Your name is read by the café’s people who run this panel, and goes to nobody else.
            ${sayNameTime(view.nameDays)} To have it taken out before, ask who serves, or do it yourself afterwards
            under “What is kept of you” on this phone or by your seat card.
          </li>
          <li>Taste for yourself: no talking about the cups until everybody is done.</li>
        </ul>
        ${tick('consent', DOOR_TICKS.consent, problems)} ${tick('unseen', DOOR_TICKS.unseen, problems)}
        <p class="field">
          <label for="name">First name or nickname</label>
          <input
            id="name"
            name="name"
            maxlength="40"
            autocomplete="nickname"
            autocapitalize="words"
            value="${typed?.name ?? ''}"
            required${wrong('name', problems)}
          />
          ${problem('name', problems)}
        </p>
      </section>
      <p>
        <button class="main" name="act" value="take">
          ${view.seat === null ? 'Take a seat' : `Take seat ${view.seat}`}
        </button>
      </p>
    </form>
    <form method="post" id="stop"></form>
  </main>`
}

function tick(name: string, words: string, problems: Typed['problems']): Markup {
  return html`<p class="tick">
    <label
      ><input type="checkbox" name="${name}" value="yes" required${wrong(name, problems)} />
      <span>${words}</span></label
    >${problem(name, problems)}
  </p>`
}

function wrong(name: string, problems: Typed['problems']): Markup {
  return problems[name] === undefined ? html`` : html` aria-invalid="true" aria-describedby="${name}-problem"`
}

function problem(name: string, problems: Typed['problems']): Markup {
  const words = problems[name]
  return words === undefined ? html`` : html`<span class="problem" id="${name}-problem">${words}</span>`
}
