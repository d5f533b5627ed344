import { html, type Markup } from '../taste/html'
import type { HomeLineWords, HomeSheetWords } from './say-home-sheet'

/** The sheet in plain HTML, for the file and behind the link: every word in it was typed by somebody and is escaped. */
export function sheetMarkup(words: HomeSheetWords): Markup {
  const [whose = '', ...head] = words.head
  return html`<p class="soft">${whose}</p>
    <h1>${words.title}</h1>
    ${head.map((line) => html`<p>${line}</p>`)}
    ${words.changed.length === 0 ? null : html`<div class="changed" role="note">${words.changed.map((line) => html`<p>${line}</p>`)}</div>`}
    <div class="box">${words.allergens.map(([label, said]) => html`<p><strong>${label}:</strong> ${said}</p>`)}</div>
    ${table('Weigh, in this order', words.lines)} ${list(words.steps)} ${words.made.map(madePart)}
    <p><strong>${words.standing}</strong></p>
    <div class="cautions">${words.cautions.map((line) => html`<p>${line}</p>`)}</div>`
}

function madePart(made: HomeSheetWords['made'][number]): Markup {
  return html`<section>
    <h2>${made.name}</h2>
    ${made.lines.length === 0 ? null : table('As the house makes it', made.lines)} ${list(made.steps)}
    ${made.notes.map((note) => html`<p class="soft">${note}</p>`)}
  </section>`
}

function table(caption: string, lines: readonly HomeLineWords[]): Markup {
  const row = ({ name, amount, notes }: HomeLineWords) =>
    html`<tr>
      <th scope="row">${name}${notes.map((note) => html`<small>${note}</small>`)}</th>
      <td>${amount}</td>
    </tr>`
  return html`<table>
    <caption>
      ${caption}
    </caption>
    <tbody>
      ${lines.map(row)}
    </tbody>
  </table>`
}

function list(steps: readonly string[]): Markup | null {
  return steps.length === 0
    ? null
    : html`<ol>
        ${steps.map((step) => html`<li>${step}</li>`)}
      </ol>`
}
