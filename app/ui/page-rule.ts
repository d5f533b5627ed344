/** Papers of a card; the first is taken where none is asked for. */
export const cardSizes = {
  a4: { words: 'A4', page: 'A4', margin: '14mm' },
  letter: { words: 'US Letter', page: 'letter', margin: '0.55in' },
  receipt: { words: 'receipt, 80 mm', page: '80mm 400mm', margin: '4mm' },
} as const

export type CardSize = keyof typeof cardSizes

export function isCardSize(word: string): word is CardSize {
  return Object.hasOwn(cardSizes, word)
}

const font = 'font: 9pt sans-serif'
const pageNumber = `@bottom-right { content: counter(page) " of " counter(pages); ${font} }`

/** The paper of a card, exactly; page numbers where a page can follow. */
export function cardRule(size: CardSize): string {
  const { page, margin } = cardSizes[size]
  return `@page { size: ${page}; margin: ${margin}; ${size === 'receipt' ? '' : pageNumber} }`
}

const LONGEST_FOOT = 400

/** Margins, page numbers and a foot for a printed page; the printer's own paper, A4 or Letter, is kept, but for A4 on its side. */
export function sheetRule(foot: string, landscape: boolean): string {
  // Inside a CSS string: everything but letters, digits and blanks is written as its code point.
  const safe = foot
    .slice(0, LONGEST_FOOT)
    .replace(/[^\p{L}\p{N} ]/gu, (sign) => `\\${(sign.codePointAt(0) ?? 32).toString(16)} `)
  return `@page { ${landscape ? 'size: A4 landscape; ' : ''}margin: 14mm 12mm 18mm; @bottom-left { content: "${safe}"; ${font} } ${pageNumber} }`
}
