import { demand } from '@/lib/base/demand'
import { countPermutations, nextPermutation } from './next-permutation'

/** How much work an exact answer may take: sets of column sums kept at once, and steps between them. */
const MOST_STATES = 2_000_000
const MOST_STEPS = 200_000_000
const MOST_ORDERS = 4_000_000

/** Probabilities by whole-number key: open addressing, because a Map of two million numbers is slow and large. */
class Tally {
  private keys = new Float64Array(1024).fill(-1)
  private weights = new Float64Array(1024)
  size = 0

  add(key: number, weight: number): void {
    if (this.size * 2 >= this.keys.length) this.grow()
    const at = this.find(key)
    if (this.keys[at] === -1) {
      this.keys[at] = key
      this.size += 1
    }
    this.weights[at] = (this.weights[at] as number) + weight
  }

  each(visit: (key: number, weight: number) => void): void {
    for (let at = 0; at < this.keys.length; at += 1) {
      if (this.keys[at] !== -1) visit(this.keys[at] as number, this.weights[at] as number)
    }
  }

  private find(key: number): number {
    const mask = this.keys.length - 1
    const high = Math.floor(key / 4294967296)
    const low = key - high * 4294967296
    let at = Math.imul(low, 0x9e3779b1) ^ Math.imul(high + 1, 0x85ebca6b)
    at = Math.imul(at ^ (at >>> 15), 0xc2b2ae35)
    at = (at ^ (at >>> 13)) & mask
    while (this.keys[at] !== -1 && this.keys[at] !== key) at = (at + 1) & mask
    return at
  }

  private grow(): void {
    const { keys, weights } = this
    this.keys = new Float64Array(keys.length * 4).fill(-1)
    this.weights = new Float64Array(keys.length * 4)
    for (let i = 0; i < keys.length; i += 1) {
      if (keys[i] === -1) continue
      const at = this.find(keys[i] as number)
      this.keys[at] = keys[i] as number
      this.weights[at] = weights[i] as number
    }
  }
}

/**
 * If each row's numbers had fallen on the columns by chance, how often would the column sums lie as far apart as these?
 *
 *     P(Σ Tⱼ² ≥ Σ tⱼ²),   t = column sums seen, T = after an independent random order within every row
 *
 * All columns are alike under chance, so only sorted sums are kept: rows are added one by one, each over all its
 * different orders.
 *
 * @param rows  n rows of k whole numbers ≥ 0 (doubled midranks; or 0 and 1)
 * @returns     the exact probability, or null where it takes more than 2 million sets of sums or 200 million steps
 * @throws RangeError  rows of unequal length, or a number that is not whole
 *
 * Source   Friedman (1937), J. Am. Stat. Assoc. 32, 675–701 (the recursion); conditional on ties as in Lehmann (1975)
 * Checked  test/reference/friedman-1937-tails.test.ts, test/reference/cochran-1950-checked.test.ts
 * Cost     distinct sorted sums × orders of a row, for each row but the first
 */
export function permutedColumnTail(rows: readonly (readonly number[])[]): number | null {
  const k = rows[0]?.length ?? 0
  for (const row of rows) {
    demand(row.length === k, `rows must have ${k} numbers, got ${row.length}`)
    for (const x of row) demand(Number.isInteger(x) && x >= 0, `column sums need whole numbers from 0, got ${x}`)
  }
  const drawn = usefulRows(rows)
  if (drawn.length === 0) return 1
  const seen = sumOfSquares(columnSums(drawn.map((row) => row.asSeen)))
  const radix = 1 + drawn.reduce((most, row) => most + (row.sorted[k - 1] as number), 0)
  if (radix ** (k - 1) >= Number.MAX_SAFE_INTEGER) return null

  let steps = 0
  let states = new Tally()
  states.add(packSorted(Int32Array.from(drawn[0]?.sorted ?? []), radix), 1)
  let total = drawn[0]?.sorted.reduce((sum, x) => sum + x, 0) ?? 0
  const sums = new Int32Array(k)
  const next = new Int32Array(k)
  let listed = new Int32Array(0)
  let tail = drawn.length === 1 ? 1 : 0
  for (let r = 1; r < drawn.length; r += 1) {
    const { sorted, orders } = drawn[r] as UsefulRow
    steps += states.size * orders
    if (orders > MOST_ORDERS || states.size > MOST_STATES || steps > MOST_STEPS) return null
    if (r > 2 && stepsAhead(drawn, r, states.size, k) > 2 * MOST_STEPS) return null
    const last = r === drawn.length - 1
    const after = new Tally()
    if (r === 1 || compareLists(sorted, drawn[r - 1]?.sorted ?? []) !== 0) listed = listOrders(sorted, orders)
    const added = sorted.reduce((sum, x) => sum + x * x, 0)
    states.each((key, weight) => {
      unpack(key, radix, total, sums)
      const share = weight / orders
      const least = (seen - added - sums.reduce((sum, x) => sum + x * x, 0)) / 2
      if (last) tail += share * countAcross(sums, listed, least)
      else {
        for (let at = 0; at < listed.length; at += k) {
          for (let j = 0; j < k; j += 1) next[j] = (sums[j] as number) + (listed[at + j] as number)
          after.add(packSorted(next, radix), share)
        }
      }
    })
    total += sorted.reduce((sum, x) => sum + x, 0)
    states = after
  }
  return Math.min(1, tail)
}

interface UsefulRow {
  readonly asSeen: readonly number[]
  readonly sorted: readonly number[]
  readonly orders: number
}

/** Rows that can change anything, shifted to begin at 0 and in their smallest units; the richest first, as it costs nothing. */
function usefulRows(rows: readonly (readonly number[])[]): UsefulRow[] {
  const shifted = rows.map((row) => row.map((x) => x - Math.min(...row))).filter((row) => row.some((x) => x > 0))
  const unit = shifted.flat().reduce(greatestCommonDivisor, 0)
  return shifted
    .map((row) => row.map((x) => x / unit))
    .map((asSeen) => ({ asSeen, sorted: asSeen.toSorted((a, b) => a - b), orders: countPermutations(asSeen) }))
    .sort((a, b) => b.orders - a.orders || compareLists(a.sorted, b.sorted))
}

/** Sets of sums grow with the rows to the power of k − 1: what cannot be finished is not begun. */
function stepsAhead(drawn: readonly UsefulRow[], from: number, size: number, k: number): number {
  return drawn.slice(from).reduce((sum, { orders }, more) => sum + orders * size * ((from + more) / from) ** (k - 1), 0)
}

/** Every different order of one row, one after the other in a flat list. */
function listOrders(sorted: readonly number[], orders: number): Int32Array<ArrayBuffer> {
  const order = Int32Array.from(sorted)
  const listed = new Int32Array(orders * order.length)
  for (let at = 0; at < listed.length; at += order.length) {
    listed.set(order, at)
    nextPermutation(order)
  }
  return listed
}

/** Σ (s + r)² ≥ seen is Σ s r ≥ least once the squares that no order changes are taken off. */
function countAcross(sums: Int32Array, listed: Int32Array, least: number): number {
  let count = 0
  for (let at = 0; at < listed.length; at += sums.length) {
    let across = 0
    for (let j = 0; j < sums.length; j += 1) across += (sums[j] as number) * (listed[at + j] as number)
    if (across >= least) count += 1
  }
  return count
}

function greatestCommonDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestCommonDivisor(b, a % b)
}

function compareLists(a: readonly number[], b: readonly number[]): number {
  const at = a.findIndex((x, i) => x !== b[i])
  return at < 0 ? 0 : (a[at] ?? 0) - (b[at] ?? 0)
}

function columnSums(rows: readonly (readonly number[])[]): number[] {
  return rows.reduce<number[]>((sums, row) => row.map((x, j) => x + (sums[j] ?? 0)), [])
}

function sumOfSquares(list: readonly number[]): number {
  return list.reduce((sum, x) => sum + x * x, 0)
}

/** Sorts in place (nearly sorted already, so by insertion) and writes all but the last sum as digits of one number. */
function packSorted(list: Int32Array, radix: number): number {
  for (let i = 1; i < list.length; i += 1) {
    const x = list[i] as number
    let j = i - 1
    for (; j >= 0 && (list[j] as number) > x; j -= 1) list[j + 1] = list[j] as number
    list[j + 1] = x
  }
  let key = 0
  for (let i = 0; i < list.length - 1; i += 1) key = key * radix + (list[i] as number)
  return key
}

/** The reverse: the last sum is what the others leave of the total. */
function unpack(key: number, radix: number, total: number, into: Int32Array): void {
  let left = total
  let rest = key
  for (let i = into.length - 2; i >= 0; i -= 1) {
    const digit = rest % radix
    into[i] = digit
    left -= digit
    rest = (rest - digit) / radix
  }
  into[into.length - 1] = left
}
