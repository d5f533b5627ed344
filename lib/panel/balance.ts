import { EigenvalueDecomposition, Matrix } from 'ml-matrix'
import { demand } from '@/lib/base/demand'

/** One row per taster: the cups of that tray, numbered from 1, in the order in which they are tasted. */
export type Orders = readonly (readonly number[])[]

/** Square or oblong table of counts; row c − 1 belongs to cup c. */
export type CountTable = number[][]

const table = (rows: number, columns: number): CountTable =>
  Array.from({ length: rows }, () => Array<number>(columns).fill(0))

function addOne(counts: CountTable, row: number, column: number): void {
  const cells = counts[row]
  demand(cells !== undefined && column in cells, `no cup ${row + 1} or place ${column + 1} in this table`)
  cells[column] = (cells[column] ?? 0) + 1
}

/**
 * How often does each cup stand first, second, third …?
 *
 * @param orders  cups from 1
 * @param cups    number of labels K, a copy counting as one
 * @returns       [cup − 1][place − 1], as many places as the longest tray has
 * @throws RangeError  a cup outside 1 … K
 */
export function positionCounts(orders: Orders, cups: number): CountTable {
  const counts = table(cups, Math.max(0, ...orders.map((order) => order.length)))
  for (const order of orders) order.forEach((cup, place) => addOne(counts, cup - 1, place))
  return counts
}

/**
 * How often is each cup tasted straight after each other one?
 *
 * @returns  [cup before − 1][cup after − 1], zero on the diagonal
 * @throws RangeError  a cup outside 1 … K
 */
export function followCounts(orders: Orders, cups: number): CountTable {
  const counts = table(cups, cups)
  for (const order of orders) {
    order.forEach((cup, place) => {
      const before = order[place - 1]
      if (before !== undefined) addOne(counts, before - 1, cup - 1)
    })
  }
  return counts
}

/**
 * How many tasters have both cups of each pair on their tray?
 *
 * @returns  symmetric, zero on the diagonal
 * @throws RangeError  a cup outside 1 … K
 */
export function pairCounts(orders: Orders, cups: number): CountTable {
  const counts = table(cups, cups)
  for (const order of orders) {
    for (const a of order) for (const b of order) if (a !== b) addOne(counts, a - 1, b - 1)
  }
  return counts
}

/**
 * How far apart are the largest and the smallest count?
 *
 * @param counts  any table
 * @param skip    cells that do not count: the diagonal, a pair that must never meet
 */
export function spread(counts: CountTable, skip: (row: number, column: number) => boolean = () => false): number {
  const seen = counts.flatMap((cells, row) => cells.filter((_, column) => !skip(row, column)))
  return seen.length === 0 ? 0 : Math.max(...seen) - Math.min(...seen)
}

/**
 * How much of the precision of complete trays, serving for serving, do these trays keep?
 *
 *     E = harmonic mean of the non-zero eigenvalues of C / r̄,   C = diag(rᵢ) − Σ over trays of n n′ / k
 *
 *     rᵢ servings of cup i, r̄ their mean, n the 0-1 column of a tray, k its number of cups.
 *     A balanced incomplete block design has E = λK / (r k); complete trays have 1.
 *
 * @returns 0 < E ≤ 1; 0 where no two cups ever share a tray
 *
 * Source   John and Williams (1995), Cyclic and Computer Generated Designs, ch. 2 (average efficiency factor)
 * Checked  test/reference/cochran-1957-incomplete-blocks.test.ts
 * Limits   Where trays fall into groups without a common cup, only the comparisons inside the groups are in it.
 */
export function efficiency(orders: Orders, cups: number): number {
  const cells = new Float64Array(cups * cups)
  const add = (a: number, b: number, by: number): number =>
    (cells[(a - 1) * cups + b - 1] = (cells[(a - 1) * cups + b - 1] ?? 0) + by)
  let servings = 0
  for (const order of orders) {
    servings += order.length
    for (const a of order) {
      add(a, a, 1)
      for (const b of order) add(a, b, -1 / order.length)
    }
  }
  // Every tray holds every cup: exactly 1, not what is left of it after an eigenvalue decomposition.
  if (orders.length > 0 && orders.every((order) => new Set(order).size === cups)) return 1
  const information = Matrix.from1DArray(cups, cups, cells)
  const perReplicate = new EigenvalueDecomposition(information, { assumeSymmetric: true }).realEigenvalues
    .map((value) => (value * cups) / servings)
    .filter((value) => value > 1e-9)
  const inverses = perReplicate.reduce((sum, value) => sum + 1 / value, 0)
  return inverses === 0 ? 0 : perReplicate.length / inverses
}
