import type { Caution } from '@/lib/drink/caution'
import type { Cautions } from '@/lib/tasks/plan/panel-cautions'
import { html, type Markup } from '../taste/html'

/** What the cups contain, all of them together: which cup carries what must not be told, that something does must be. */
export function cautionsPart(cautions: Cautions, tick: Markup): Markup {
  const { list, said } = cautions
  return html`<section class="caution" aria-labelledby="cautions">
    <h2 id="cautions">Before you taste: is this for you?</h2>
    <p>Over all cups together, allergens by the list “${list}”:</p>
    <ul>
      ${withToDo(said).map(({ words, toDo }) => line(words, toDo))}
    </ul>
    <p>Any other allergy, or not sure? Ask who serves before you taste. Only they can look up what is in it.</p>
    ${tick}
    <p><button class="stop" form="stop" name="act" value="stop">Something here concerns me: stop</button></p>
  </section>`
}

/** What a taster does about it, beside what every sheet says of it. */
const TO_DO: Partial<Record<Caution['kind'], string>> = {
  caffeine:
    'Stop here if you are under 18, pregnant or breastfeeding, if your heart, your sleep or a medicine does not go with it, or if you were told to avoid it. You need not swallow: ask for a cup to spit into.',
  sugar: 'Mind this if you have diabetes.',
  alcohol: 'Stop here if you keep away from alcohol.',
  milk: 'It should reach you cold. Leave a cup that does not, and tell who serves.',
}

/** Each caution in the words of the sheets, and behind the last of a kind what a taster does about it. */
export function withToDo(said: readonly Caution[]): readonly { readonly words: string; readonly toDo?: string }[] {
  return said.map(({ kind, words }, at) => {
    const toDo = said[at + 1]?.kind === kind ? undefined : TO_DO[kind]
    return toDo === undefined ? { words } : { words, toDo }
  })
}

function line(words: string, toDo?: string): Markup {
  return html`<li>${words}${toDo ? html` <b>${toDo}</b>` : null}</li>`
}
