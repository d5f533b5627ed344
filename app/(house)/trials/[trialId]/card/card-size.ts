export const cardSizes = {
  a4: { words: 'A4', page: 'A4', margin: '14mm' },
  letter: { words: 'US Letter', page: 'letter', margin: '0.55in' },
  receipt: { words: 'receipt, 80 mm', page: '80mm 400mm', margin: '4mm' },
} as const

export type CardSize = keyof typeof cardSizes

export function isCardSize(word: string): word is CardSize {
  return word in cardSizes
}

/** The paper of a card, exactly; page numbers where a page can follow. */
export function cardRule(size: CardSize): string {
  const { page, margin } = cardSizes[size]
  const foot =
    size === 'receipt' ? '' : '@bottom-right { content: counter(page) " of " counter(pages); font: 9pt sans-serif }'
  return `@page { size: ${page}; margin: ${margin}; ${foot} }`
}
