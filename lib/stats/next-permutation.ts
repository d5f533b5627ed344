/**
 * What is the next different order of these numbers?
 *
 *     the lexicographic successor, in place; equal numbers are never exchanged for each other
 *
 * @param list  begin with it sorted upwards to meet every different order once
 * @returns     false when the last order has been reached; the list is then sorted upwards again
 *
 * Source   Knuth (2011), The Art of Computer Programming 4A, 7.2.1.2, algorithm L
 * Checked  test/unit/stats/next-permutation.test.ts
 */
export function nextPermutation(list: Int32Array): boolean {
  let pivot = list.length - 2
  while (pivot >= 0 && (list[pivot] as number) >= (list[pivot + 1] as number)) pivot -= 1
  if (pivot >= 0) {
    let larger = list.length - 1
    while ((list[larger] as number) <= (list[pivot] as number)) larger -= 1
    swap(list, pivot, larger)
  }
  for (let low = pivot + 1, high = list.length - 1; low < high; low += 1, high -= 1) swap(list, low, high)
  return pivot >= 0
}

function swap(list: Int32Array, a: number, b: number): void {
  const kept = list[a] as number
  list[a] = list[b] as number
  list[b] = kept
}

/**
 * How many different orders do these numbers have?
 *
 *     n! / Π t!,   t = how often each number occurs
 *
 * Source   elementary
 * Checked  test/unit/stats/next-permutation.test.ts
 */
export function countPermutations(list: readonly number[]): number {
  const seen = new Map<number, number>()
  return list.reduce((orders, x, before) => {
    const times = (seen.get(x) ?? 0) + 1
    seen.set(x, times)
    return (orders * (before + 1)) / times
  }, 1)
}
