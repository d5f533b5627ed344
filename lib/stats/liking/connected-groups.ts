import { lost } from '@/lib/base/lost'

/**
 * Into which groups do things fall when each link ties one of the left to one of the right?
 *
 * @param left   places 0 … leftCount − 1, one per link
 * @param right  places 0 … rightCount − 1, one per link
 * @returns for each thing on the left and on the right the number of its group, counted from 0 in the order of the left
 *
 * Source   Searle (1987), Linear Models for Unbalanced Data, section 5.3 (connectedness of two factors).
 * Checked  test/unit/stats/liking/connected-groups.test.ts
 */
export function connectedGroups(
  left: ArrayLike<number>,
  right: ArrayLike<number>,
  leftCount: number,
  rightCount: number,
): { readonly left: readonly number[]; readonly right: readonly number[]; readonly count: number } {
  const parent = Int32Array.from({ length: leftCount + rightCount }, (_, i) => i)
  const root = (thing: number) => {
    let at = thing
    while (parent[at] !== at) {
      const up = parent[at] ?? at
      parent[at] = parent[up] ?? up
      at = parent[at] ?? at
    }
    return at
  }
  for (let link = 0; link < left.length; link++) {
    parent[root(left[link] ?? lost())] = root(leftCount + (right[link] ?? lost()))
  }

  const numbers = new Map<number, number>()
  const groupOf = (thing: number) => {
    const top = root(thing)
    const known = numbers.get(top)
    if (known !== undefined) return known
    numbers.set(top, numbers.size)
    return numbers.size - 1
  }
  const leftGroups = Array.from({ length: leftCount }, (_, i) => groupOf(i))
  const rightGroups = Array.from({ length: rightCount }, (_, i) => groupOf(leftCount + i))
  return { left: leftGroups, right: rightGroups, count: numbers.size }
}
