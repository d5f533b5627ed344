/** Margins, page numbers and a foot for a printed page; the printer's own paper, A4 or Letter, is kept. */
export function PrintSheet({
  foot,
}: {
  /** at the foot of every page, beside the page number */ readonly foot: string
}) {
  return <style>{pageRule(foot)}</style>
}

function pageRule(foot: string): string {
  // Inside a CSS string: everything but letters, digits and blanks is written as its code point.
  const safe = foot.replace(/[^\p{L}\p{N} ]/gu, (sign) => `\\${(sign.codePointAt(0) ?? 32).toString(16)} `)
  const font = 'font: 9pt sans-serif'
  return `@page { margin: 14mm 12mm 18mm;
  @bottom-left { content: "${safe}"; ${font} }
  @bottom-right { content: counter(page) " of " counter(pages); ${font} } }`
}
