import { demand } from '@/lib/base/demand'

/**
 * Which first row of a square keeps two given cups from ever standing side by side?
 *
 *     no step between neighbours is ±d modulo n, so that the cups on marks 0 and d never meet in any shift;
 *     the other steps are used as equally as the search finds possible
 *
 * @param n  number of cups, the copy counted; n ≥ 4
 * @returns  the row, and d
 * @throws RangeError  n below four: with three cups, the third must always stand between the two
 *
 * Source   constructed here: the first such row in the order of the search; proven by counting
 * Checked  test/unit/panel/keep-apart.test.ts
 * Limits   Places stay exactly balanced; who follows whom cannot, because the two need other neighbours more often.
 */
export function apartRow(n: number): { readonly row: readonly number[]; readonly apart: number } {
  demand(Number.isInteger(n) && n >= 4, `keeping two cups apart in a square needs at least four cups, got ${n}`)
  const apart = Math.floor(n / 2)
  const steps = Array.from({ length: n }, (_, step) => step).filter((s) => s !== 0 && s !== apart && s !== n - apart)
  for (let uses = Math.ceil((n - 1) / steps.length); uses < n; uses += 1) {
    const row = grow([0], steps, Array<number>(n).fill(uses))
    if (row) return { row, apart }
  }
  throw new RangeError(`no row of ${n} cups keeps two of them apart`)
}

/** Depth first: the first row in which no step is used more often than `left` allows. */
function grow(row: readonly number[], steps: readonly number[], left: number[]): readonly number[] | null {
  const n = left.length
  if (row.length === n) return row
  for (const step of steps) {
    const next = ((row.at(-1) ?? 0) + step) % n
    const uses = left[step] ?? 0
    if (uses === 0 || row.includes(next)) continue
    left[step] = uses - 1
    const grown = grow([...row, next], steps, left)
    if (grown) return grown
    left[step] = uses
  }
  return null
}
