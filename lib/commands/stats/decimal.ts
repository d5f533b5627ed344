const DECIMAL = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i

/** Reads a number written with a point. @returns the number, or what is wrong with it in words */
export function decimal(text: string): number | string {
  if (/^[+-]?\d+,\d+$/.test(text)) return `'${text}' is not a number; write it with a point`
  if (!DECIMAL.test(text)) return `'${text}' is not a number`
  const value = Number(text)
  return Number.isFinite(value) ? value : `'${text}' is too large for a number`
}
