/** HTML that is safe to send. Made only by `html`, which escapes every value that is not itself Markup. */
export class Markup {
  constructor(readonly text: string) {}
}

type Piece = Markup | string | number | null | readonly Piece[]

/** Writes HTML from a template: text is escaped, Markup goes in as it is, a list goes in one after the other. */
export function html(parts: TemplateStringsArray, ...pieces: readonly Piece[]): Markup {
  return new Markup(parts.map((part, i) => part + (i < pieces.length ? written(pieces[i] ?? null) : '')).join(''))
}

function written(piece: Piece): string {
  if (piece === null) return ''
  if (piece instanceof Markup) return piece.text
  if (typeof piece === 'object') return piece.map(written).join('')
  return String(piece).replace(/[&<>"']/g, (sign) => `&#${sign.charCodeAt(0)};`)
}

/** A block of JSON that the page's script reads: no browser runs it, and nothing in it can end the block. */
export function jsonBlock(id: string, value: unknown): Markup {
  return html`<script type="application/json" id="${id}">
    ${new Markup(JSON.stringify(value).replace(/</g, '\\u003c'))}
  </script>`
}
