import type { SeededRandom } from '@/lib/stats/random'
import { apartRow } from './keep-apart'
import { type Family, familyOf, missingRows, type Rows, williamsRow } from './williams'

/** How many labellings of a square with two cups kept apart are drawn before the evenest is taken. */
const LABELLINGS = 24

interface Plan {
  readonly row: readonly number[]
  readonly mirrored: boolean
  /** the two cups, and the marks of the row on which they stand */
  readonly keep?: { readonly cups: readonly [number, number]; readonly marks: readonly [number, number] }
}

/**
 * In which orders do tasters get all cups?
 *
 *     squares with random labels, one after the other, rows in random order; each is finished before the next begins,
 *     so that whoever stays away at the end leaves the trays served nearly balanced
 *
 * @param existing  rows given out before, cups from 0: a square begun there is finished first
 * @param howMany   new rows wanted
 * @param n         number of cups, a copy counted
 * @param apart     two cups that must never stand side by side
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
  apart?: readonly [number, number],
): Rows {
  if (apart && n === 3) return alternate(existing, howMany, apart, random)
  const plan = planFor(n, apart)
  const rows = missingRows(existing, plan.row, plan.mirrored).flatMap((part) => random.shuffle(part))
  const follows = new FollowTable(n)
  if (apart) follows.add([...existing, ...rows], 1)
  while (rows.length < howMany) {
    const draw = (): Family => familyOf(firstRow(n, plan, random), plan.row, plan.mirrored)
    const { square, mirror } = apart ? follows.evenest(Array.from({ length: LABELLINGS }, draw)) : draw()
    rows.push(...random.shuffle(square), ...random.shuffle(mirror))
    if (apart) follows.add([...square, ...mirror], 1)
  }
  return rows.slice(0, howMany)
}

function planFor(n: number, cups?: readonly [number, number]): Plan {
  if (!cups) return { row: williamsRow(n), mirrored: n % 2 === 1 }
  const { row, apart } = apartRow(n)
  return { row, mirrored: true, keep: { cups, marks: [0, apart] } }
}

/** Random labels on the first row of a square. */
function firstRow(n: number, { row, keep }: Plan, random: SeededRandom): number[] {
  const cups = Array.from({ length: n }, (_, cup) => cup)
  if (!keep) return random.shuffle(cups)
  const kept = random.shuffle(keep.cups)
  const others = random.shuffle(cups.filter((cup) => !kept.includes(cup)))
  return row.map((mark) => (keep.marks.includes(mark) ? kept[keep.marks.indexOf(mark)] : others.pop()) ?? 0)
}

/** Three cups, two of them never side by side: the third stands between, the outer two take turns. */
function alternate(
  existing: readonly (readonly number[])[],
  howMany: number,
  [a, b]: readonly [number, number],
  random: SeededRandom,
): Rows {
  const middle = 3 - a - b
  const ahead = existing.filter((row) => row[0] === a).length * 2 - existing.length
  const first = ahead === 0 ? random.below(2) : ahead > 0 ? 1 : 0
  return Array.from({ length: howMany }, (_, at) => ((at + first) % 2 === 0 ? [a, middle, b] : [b, middle, a]))
}

/** Who has followed whom so far. */
class FollowTable {
  private readonly counts: Int32Array

  constructor(private readonly n: number) {
    this.counts = new Int32Array(n * n)
  }

  /** @returns by how much the sum of squared counts grew */
  add(rows: readonly (readonly number[])[], by: 1 | -1): number {
    let grown = 0
    for (const row of rows) {
      for (let place = 1; place < row.length; place += 1) {
        const cell = (row[place - 1] ?? 0) * this.n + (row[place] ?? 0)
        const count = this.counts[cell] ?? 0
        this.counts[cell] = count + by
        grown += by * (2 * count + by)
      }
    }
    return grown
  }

  evenest(families: readonly Family[]): Family {
    let chosen: Family = { square: [], mirror: [] }
    let least = Infinity
    for (const family of families) {
      const rows = [...family.square, ...family.mirror]
      const grown = this.add(rows, 1)
      this.add(rows, -1)
      if (grown < least) {
        least = grown
        chosen = family
      }
    }
    return chosen
  }
}
