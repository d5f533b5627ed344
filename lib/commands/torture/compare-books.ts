import type { Given, Kept } from '../bench/phones'

export interface Compared {
  /** places with an answer that was acknowledged */
  readonly acknowledged: number
  /** acknowledged, and not in the books, or not as last acknowledged */
  readonly lost: number
  /** in the books more than once */
  readonly doubled: number
  /** in the books, and never acknowledged to anybody */
  readonly unasked: number
}

/**
 * What phones were told is kept, beside what is. No answer may be on its way any more.
 *
 * @param told  for each cup and attribute the answer of the highest revision that was acknowledged
 */
export function compareBooks(told: readonly Given[], kept: readonly Kept[]): Compared {
  const books = new Map<string, Kept[]>()
  for (const one of kept) {
    const key = `${one.serving.seat.number} ${one.serving.code} ${one.attribute.position}`
    books.set(key, [...(books.get(key) ?? []), one])
  }
  let [lost, doubled] = [0, 0]
  for (const one of told) {
    const key = `${one.seat} ${one.code} ${one.attribute}`
    const found = books.get(key) ?? []
    if (!found.some(({ value, revision }) => value === one.value && revision === one.revision)) lost++
    if (found.length > 1) doubled++
    books.delete(key)
  }
  return { acknowledged: told.length, lost, doubled, unasked: books.size }
}
