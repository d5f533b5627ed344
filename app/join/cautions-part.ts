import type { Cautions } from '@/lib/tasks/plan/panel-cautions'
import { html, type Markup } from '../taste/html'

/** What the cups contain, all of them together: which cup carries what must not be told, that something does must be. */
export function cautionsPart(cautions: Cautions, tick: Markup): Markup {
  const { contains, mayContain, notStated } = cautions
  return html`<section class="caution" aria-labelledby="cautions">
    <h2 id="cautions">Before you taste: is this for you?</h2>
    <p>Over all cups together, by the list “${cautions.list}”:</p>
    <dl>
      ${row('Contain', contains)}${row('May contain', mayContain)}${row('Not stated', notStated, 'For these the café has not read every label. They may be in a cup.')}
    </dl>
    ${contains.length + mayContain.length + notStated.length === 0 ? html`<p>No allergen of this list is named on the labels, which have all been read. Traces from the café itself cannot be ruled out.</p>` : null}
    <ul>
      ${
        cautions.caffeine
          ? html`<li>
              <b>Caffeine.</b> Stop here if you are under 18, pregnant or breastfeeding, if your heart, your sleep or a
              medicine does not go with it, or if you were told to avoid it. You need not swallow: ask for a cup to spit
              into.
            </li>`
          : null
      }${cautions.sugar ? html`<li><b>Sugar.</b> Cups may be sweetened. Mind this if you have diabetes.</li>` : null}${
        cautions.milk
          ? html`<li>
              <b>Milk or plant drink.</b> It should reach you cold. Leave a cup that does not, and tell who serves.
            </li>`
          : null
      }
    </ul>
    <p>Any other allergy, or not sure? Ask who serves before you taste. Only they can look up what is in it.</p>
    ${tick}
    <p><button class="stop" form="stop" name="act" value="stop">Something here concerns me: stop</button></p>
  </section>`
}

function row(state: string, names: readonly string[], note?: string): Markup {
  if (names.length === 0) return html``
  return html`<dt>${state}</dt>
    <dd>${names.join(', ')}${note ? html`<small>${note}</small>` : null}</dd>`
}
