import { closest, distance } from 'fastest-levenshtein'

/** What the person who called can mend. Becomes one line on standard error and exit code 2. */
export class Complaint extends Error {
  override readonly name = 'Complaint'
}

/** ", did you mean …?" or the list of what there is, whichever helps. */
export function nearestOf(given: string, known: readonly string[], mark = ''): string {
  if (known.length === 0) return ''
  const near = closest(given.toLowerCase(), [...known])
  if (distance(given.toLowerCase(), near.toLowerCase()) <= Math.max(2, near.length / 2)) {
    return `; did you mean ${mark}${near}?`
  }
  return `; nearest is ${mark}${near} of ${known.map((name) => mark + name).join(', ')}`
}
