/** Numbers inside labels count as numbers; ties between equal-looking labels fall back to code points. */
const collator = new Intl.Collator('en', { numeric: true, sensitivity: 'variant' })

/**
 * In which order do labels stand on a page and in an answer?
 *
 * @returns negative, zero or positive, for `sort`: "cup 2" before "cup 10", the same on every machine
 */
export function byLabel(a: string, b: string): number {
  return collator.compare(a, b) || (a < b ? -1 : a > b ? 1 : 0)
}
