/** Numbers as they stand on a page: a real minus sign, digits the reader can use, nothing that jumps. */

const minus = '\u2212'

/** To make one takes longer than to use it a hundred times. */
const formatters = new Map<string, Intl.NumberFormat>()

function formatter(least: number, most: number): Intl.NumberFormat {
  const key = `${least} ${most}`
  const made = formatters.get(key)
  if (made) return made
  const one = new Intl.NumberFormat('en', { minimumFractionDigits: least, maximumFractionDigits: most })
  formatters.set(key, one)
  return one
}

/** 1234.5 → "1,234.5" with exactly `digits` decimals; negative numbers carry a real minus sign, and never "−0.0". */
export function fixed(value: number, digits: number): string {
  const text = formatter(digits, digits).format(Math.abs(value))
  return value < 0 && /[1-9]/.test(text) ? `${minus}${text}` : text
}

/** At most `digits` decimals, without trailing zeros: 60.0 → "60", 12.50 → "12.5". */
export function plain(value: number, digits = 2): string {
  const text = formatter(0, digits).format(Math.abs(value))
  return value < 0 && /[1-9]/.test(text) ? `${minus}${text}` : text
}

/**
 * How many decimals the amounts of a currency have: 2 of EUR, 0 of JPY; null for what is no code of a currency.
 *
 * Source   ISO 4217, as Intl knows it
 */
export function currencyDigits(code: string): number | null {
  if (!/^[A-Z]{3}$/.test(code)) return null
  const known = digitsByCode.get(code)
  if (known !== undefined) return known
  const { maximumFractionDigits } = new Intl.NumberFormat('en', { style: 'currency', currency: code }).resolvedOptions()
  digitsByCode.set(code, maximumFractionDigits ?? 2)
  return maximumFractionDigits ?? 2
}

/** There are some three hundred codes, and one café asks for one of them at every amount. */
const digitsByCode = new Map<string, number>()

/** An amount with the decimals of its currency, the code left out: 1.1 EUR → "1.10". Two where nobody knows the currency. */
export function coins(amount: number, code: string): string {
  return fixed(amount, currencyDigits(code) ?? 2)
}

/** Minor units of a currency: 350 → "3.50 EUR". */
export function money(minor: number, currency: string, digits: number): string {
  return `${fixed(minor / 10 ** digits, digits)}\u00a0${currency}`
}
