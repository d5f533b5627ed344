import type { SeededRandom } from '@/lib/stats/random'
import { familyOf, missingRows, type Rows, williamsRow } from './williams'

/**
 * In which orders do tasters get all cups?
 *
 *     squares with random labels, one after the other, rows in random order; each is finished before the next begins,
 *     so that whoever stays away at the end leaves the trays served nearly balanced
 *
 * @param existing  rows given out before, cups from 0: a square begun there is finished first
 * @param howMany   new rows wanted
 * @param n         number of cups, a copy counted
 * @returns         the new rows only
 *
 * Source   Williams (1949); for odd n the square and its mirror image
 * Checked  test/unit/panel/complete-order.test.ts
 */
export function completeRows(
  existing: readonly (readonly number[])[],
  howMany: number,
  n: number,
  random: SeededRandom,
): Rows {
  const base = williamsRow(n)
  const mirrored = n % 2 === 1
  const cups = Array.from({ length: n }, (_, cup) => cup)
  const rows = missingRows(existing, base, mirrored).flatMap((part) => random.shuffle(part))
  while (rows.length < howMany) {
    const { square, mirror } = familyOf(random.shuffle(cups), base, mirrored)
    rows.push(...random.shuffle(square), ...random.shuffle(mirror))
  }
  return rows.slice(0, howMany)
}
