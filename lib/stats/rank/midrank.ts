import { demand } from '@/lib/base/demand'
import { lost } from '@/lib/base/lost'

/** Readings closer than this share of the largest one differ by rounding only: 0.1 + 0.2 ties with 0.3. */
const SAME = 1e-12

/**
 * In which place does each reading stand, when equal readings share a place?
 *
 *     rank 1 = smallest; t equal readings that fill places a … a + t − 1 each take a + (t − 1) / 2
 *
 * @param readings  finite numbers in one unit, any order
 * @returns         one rank per reading, in the order given; they sum to n (n + 1) / 2
 * @throws RangeError  a reading is not finite
 *
 * Source   Kendall (1945), Biometrika 33(3), 239–251
 * Checked  test/unit/stats/rank/midrank.test.ts
 * Limits   Readings nearer than 1e-12 of the largest magnitude count as equal.
 */
export function midranks(readings: readonly number[]): number[] {
  const reach = SAME * readings.reduce((most, x) => Math.max(most, Math.abs(x)), 0)
  for (const x of readings) demand(Number.isFinite(x), `ranks need finite readings, got ${x}`)
  const order = readings.map((x, at) => ({ x, at })).sort((a, b) => a.x - b.x)
  const ranks = new Array<number>(readings.length).fill(0)
  for (let from = 0; from < order.length;) {
    let to = from
    while (to + 1 < order.length && (order[to + 1]?.x ?? lost()) - (order[to]?.x ?? lost()) <= reach) to += 1
    for (let i = from; i <= to; i += 1) ranks[order[i]?.at ?? lost()] = (from + to) / 2 + 1
    from = to + 1
  }
  return ranks
}

/**
 * The same among the readings that are there.
 *
 * @param row  null where there is no reading
 * @returns    null in the same places
 *
 * Checked  test/unit/stats/rank/midrank.test.ts
 */
export function midranksPresent(row: readonly (number | null)[]): (number | null)[] {
  const ranks = midranks(row.filter((x) => x !== null))
  let next = 0
  return row.map((x) => (x === null ? null : (ranks[next++] ?? null)))
}
