/** Numbers as they stand on a page: a real minus sign, digits the reader can use, nothing that jumps. */

const minus = '\u2212'

/** 1234.5 → "1,234.5" with exactly `digits` decimals; negative numbers carry a real minus sign, and never "−0.0". */
export function fixed(value: number, digits: number): string {
  const text = new Intl.NumberFormat('en', { minimumFractionDigits: digits, maximumFractionDigits: digits }).format(
    Math.abs(value),
  )
  return value < 0 && /[1-9]/.test(text) ? `${minus}${text}` : text
}

/** At most `digits` decimals, without trailing zeros: 60.0 → "60", 12.50 → "12.5". */
export function plain(value: number, digits = 2): string {
  const text = new Intl.NumberFormat('en', { maximumFractionDigits: digits }).format(Math.abs(value))
  return value < 0 && /[1-9]/.test(text) ? `${minus}${text}` : text
}

/** A probability as one reads it: three decimals, and "below 0.001" where more would pretend. */
export function chance(p: number): string {
  return p < 0.001 ? 'below 0.001' : fixed(p, 3)
}

/** Minor units of a currency: 350 → "3.50 EUR". */
export function money(minor: number, currency: string, digits: number): string {
  return `${fixed(minor / 10 ** digits, digits)}\u00a0${currency}`
}
