import type { CardSize } from './page-rule'

/**
 * How the page is printed: a style of its own that comes from `app/print.css`, because no page carries styles within. It
 * stays in its place among the elements, and goes with them when another page comes.
 */
export function PrintSheet(
  how:
    | {
        /** at the foot of every page, beside the page number */
        readonly foot: string
        /** A4 on its side, for a wide table; else the printer's own paper, upright */
        readonly landscape?: true
      }
    | { readonly card: CardSize },
) {
  const asked = 'foot' in how ? { foot: how.foot, ...(how.landscape && { turn: 'landscape' }) } : how
  return <link rel="stylesheet" href={`/print.css?${new URLSearchParams(asked).toString()}`} />
}
