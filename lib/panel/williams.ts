import { demand } from '@/lib/base/demand'

/** Rows of cups numbered from 0. */
export type Rows = number[][]

const modulo = (value: number, size: number): number => ((value % size) + size) % size

/**
 * Which first row makes a square in which every cup follows every other equally often?
 *
 *     z = 0, 1, n − 1, 2, n − 2, …; its steps 1, −2, 3, −4 … are all different modulo n where n is even,
 *     and each used twice where n is odd, so that there the rows read backwards are needed too
 *
 * @param n  number of cups, n ≥ 2
 * @throws RangeError  n below two or not whole
 *
 * Source   Williams (1949), Aust. J. Sci. Res. A 2(2), 149–168; MacFie et al. (1989), J. Sensory Stud. 4, 129–148
 * Checked  test/reference/williams-1949-squares.test.ts
 */
export function williamsRow(n: number): number[] {
  demand(Number.isInteger(n) && n >= 2, `a Williams row needs at least two cups, got ${n}`)
  return Array.from({ length: n }, (_, place) => (place % 2 === 1 ? (place + 1) / 2 : modulo(-place / 2, n)))
}

/** A square and, where the square alone is not balanced, its mirror image. */
export interface Family {
  /** n rows in which each cup stands once at each place */
  readonly square: Rows
  /** the same rows read backwards, or none */
  readonly mirror: Rows
}

/**
 * To which square does this row belong?
 *
 *     row = π(z₁), π(z₂), …, so the other rows are π(z₁ + i), π(z₂ + i), … modulo n for i = 1 … n − 1
 *
 * @param row       every cup from 0 once
 * @param base      z, the first row of the square
 * @param mirrored  whether the rows read backwards belong to it too
 * @throws RangeError  a row of another length
 */
export function familyOf(row: readonly number[], base: readonly number[], mirrored: boolean): Family {
  const n = base.length
  demand(row.length === n, `a row of this square holds ${n} cups, got ${row.length}`)
  const label = Array<number>(n).fill(0)
  base.forEach((mark, place) => (label[mark] = row[place] ?? 0))
  const square = base.map((_, shift) => base.map((mark) => label[modulo(mark + shift, n)] ?? 0))
  return { square, mirror: mirrored ? square.map((cups) => cups.toReversed()) : [] }
}

/**
 * Which rows are missing from the squares that have been begun?
 *
 * @param existing  rows given out so far, from any number of squares
 * @returns  lists of missing rows, in the order in which they should be given out: the half that was begun comes first
 */
export function missingRows(
  existing: readonly (readonly number[])[],
  base: readonly number[],
  mirrored: boolean,
): Rows[] {
  const left = new Map<string, number>()
  const count = (row: readonly number[]): number => left.get(row.join()) ?? 0
  for (const row of existing) left.set(row.join(), count(row) + 1)

  const parts: Rows[] = []
  for (const row of existing) {
    if (count(row) === 0) continue
    const readings = mirrored ? [row, row.toReversed()] : [row]
    const families = readings.map((reading) => familyOf(reading, base, mirrored))
    const found = (rows: Rows): number => rows.filter((one) => count(one) > 0).length
    const halves = families
      .map(({ square, mirror }) => [square, mirror].toSorted((a, b) => found(b) - found(a)))
      .toSorted((a, b) => found(b.flat()) - found(a.flat()))[0]
    for (const half of halves ?? []) {
      parts.push(half.filter((one) => count(one) === 0))
      for (const one of half) left.set(one.join(), Math.max(0, count(one) - 1))
    }
  }
  return parts
}
