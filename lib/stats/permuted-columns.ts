import { demand } from '@/lib/base/demand'
import { lost } from '@/lib/base/lost'
import { countPermutations, nextPermutation } from './next-permutation'

/** How much work an exact answer may take: sets of column sums kept at once, and steps between them. */
const MOST_STATES = 2_000_000
const MOST_STEPS = 40_000_000
const MOST_ORDERS = 4_000_000

/** Probabilities by whole-number key: open addressing, because a Map of two million numbers is slow and large. */
class Tally {
  /** Key, weight, key, weight …: both of one entry are met in one look at memory. */
  private entries = new Float64Array(2048).fill(-1)
  size = 0

  add(key: number, weight: number): void {
    if (this.size * 4 >= this.entries.length) this.grow()
    const at = this.find(key)
    if (this.entries[at] === -1) {
      this.entries[at] = key
      this.entries[at + 1] = weight
      this.size += 1
    } else this.entries[at + 1] = (this.entries[at + 1] as number) + weight
  }

  each(visit: (key: number, weight: number) => void): void {
    for (let at = 0; at < this.entries.length; at += 2) {
      if (this.entries[at] !== -1) visit(this.entries[at] as number, this.entries[at + 1] as number)
    }
  }

  private find(key: number): number {
    const mask = this.entries.length - 2
    let at = Math.imul(key | 0, 0x9e3779b1) ^ Math.imul((key / 4294967296) | 0, 0x85ebca6b)
    at = ((at ^ (at >>> 15)) << 1) & mask
    while (this.entries[at] !== -1 && this.entries[at] !== key) at = (at + 2) & mask
    return at
  }

  private grow(): void {
    const before = this.entries
    this.entries = new Float64Array(before.length * 4).fill(-1)
    for (let i = 0; i < before.length; i += 2) {
      if (before[i] === -1) continue
      const at = this.find(before[i] as number)
      this.entries[at] = before[i] as number
      this.entries[at + 1] = before[i + 1] as number
    }
  }
}

/**
 * If each row's numbers had fallen on the columns by chance, how often would the column sums lie as far apart as these?
 *
 *     P(Σ Tⱼ² ≥ Σ tⱼ²),   t = column sums seen, T = after an independent random order within every row
 *
 * All columns are alike under chance, so only sorted sums are kept: rows are added one by one, each over all its
 * different orders. Where every row reads the same upside down (ranks without ties), so do the sums, and one of the two is
 * kept. Sums so far apart that no later row can bring them together count at once, sums too close for
 * the rows left to part them are dropped: what is kept is what is still open.
 *
 * @param rows  n rows of k whole numbers ≥ 0 (doubled midranks; or 0 and 1)
 * @param most  steps that may be taken, where several such questions share one allowance
 * @returns     the exact probability, or null where it takes more than 2 million sets of sums or that many steps
 * @throws RangeError  rows of unequal length, or a number that is not whole
 *
 * Source   Friedman (1937), J. Am. Stat. Assoc. 32, 675–701 (the recursion); conditional on ties as in Lehmann (1975);
 *          what is decided early: Mehta & Patel (1983), J. Am. Stat. Assoc. 78, 427–434 (the longest and shortest path left)
 * Checked  test/reference/friedman-1937-tails.test.ts, test/reference/cochran-1950-checked.test.ts
 * Cost     distinct open sorted sums × orders of a row, for each row but the first; 5 cups × 20 tasters about a second
 */
export function permutedColumnTail(rows: readonly (readonly number[])[], most = MOST_STEPS): number | null {
  const k = rows[0]?.length ?? 0
  for (const row of rows) {
    demand(row.length === k, `rows must have ${k} numbers, got ${row.length}`)
    for (const x of row) demand(Number.isInteger(x) && x >= 0, `column sums need whole numbers from 0, got ${x}`)
  }
  const drawn = usefulRows(rows)
  if (drawn.length < 2) return 1
  const bounds = decidedBeyond(drawn)
  const radix = 1 + drawn.reduce((sum, row) => sum + (row.sorted[k - 1] as number), 0)
  if (radix ** (k - 1) >= Number.MAX_SAFE_INTEGER) return null

  const [first, ...others] = drawn as [UsefulRow, ...UsefulRow[]]
  let open = new Tally()
  open.add(pack(first.sorted, radix), 1)
  let total = sumOf(first.sorted)
  let steps = 0
  let tail = 0
  let listed = new Int32Array(0)
  let moves: number[] = []
  const sums = new Int32Array(k)
  const next = new Int32Array(k)
  const mirrored = drawn.every(({ sorted }) =>
    sorted.every((x, j) => x + (sorted[k - 1 - j] as number) === sorted[k - 1]),
  )
  for (const [at, { sorted, orders }] of others.entries()) {
    steps += open.size * orders
    if (orders > MOST_ORDERS || open.size > MOST_STATES || steps > most) return null
    if (at === 0 || compareLists(sorted, drawn[at]?.sorted ?? []) !== 0) {
      listed = listOrders(sorted, orders)
      moves = Array.from({ length: orders }, (_, i) => pack(listed.subarray(i * k, i * k + k), radix))
    }
    const height = (2 * (total + sumOf(sorted))) / k
    const { surely, never } = bounds[at + 1] as DecidedBeyond
    const added = sumOfSquares(sorted)
    const after = new Tally()
    open.each((key, weight) => {
      unpack(key, radix, total, sums)
      const share = weight / orders
      // Σ (s + r)² is what no order changes and twice Σ s r.
      const fixed = added + sumOfSquares(sums)
      let sure = 0
      for (let order = 0; order < orders; order += 1) {
        let across = 0
        let before = 0
        let upwards = true
        for (let j = 0; j < k; j += 1) {
          const sum = sums[j] as number
          const own = listed[order * k + j] as number
          across += sum * own
          upwards &&= sum + own >= before
          before = sum + own
          next[j] = before
        }
        const squares = fixed + 2 * across
        if (squares >= surely) sure += 1
        else if (squares >= never) {
          if (!upwards) sortFew(next)
          const turned = mirrored && turnOver(next, height)
          // Sums still in order move the number that stands for them by what the row alone amounts to.
          after.add(upwards && !turned ? key + (moves[order] as number) : pack(next, radix), share)
        }
      }
      tail += share * sure
    })
    total += sumOf(sorted)
    open = after
  }
  return Math.min(1, tail)
}

/** After a row: a sum of squares of at least `surely` ends in the tail whatever follows, one below `never` in no case. */
interface DecidedBeyond {
  readonly surely: number
  readonly never: number
}

/** Column sums about their mean move by no more than the length of a row about its mean: the triangle inequality. */
function decidedBeyond(drawn: readonly UsefulRow[]): DecidedBeyond[] {
  const k = (drawn[0] as UsefulRow).sorted.length
  const seen = columnSums(drawn.map((row) => row.asSeen))
  const length = Math.sqrt(aboutMean(seen))
  let total = 0
  let left = drawn.reduce((sum, row) => sum + Math.sqrt(aboutMean(row.sorted)), 0)
  return drawn.map(({ sorted }, at) => {
    total += sumOf(sorted)
    left -= Math.sqrt(aboutMean(sorted))
    if (at === drawn.length - 1) return { surely: sumOfSquares(seen), never: sumOfSquares(seen) }
    const level = (total * total) / k
    // Half a unit of room: sums of squares are whole numbers, roots are not exact.
    return {
      surely: Math.ceil(level + (length + left) ** 2 + 0.5),
      never: Math.floor(level + Math.max(0, length - left) ** 2 - 0.5),
    }
  })
}

function aboutMean(list: readonly number[]): number {
  return sumOfSquares(list) - sumOf(list) ** 2 / list.length
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

function greatestCommonDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestCommonDivisor(b, a % b)
}

function compareLists(a: readonly number[], b: readonly number[]): number {
  const at = a.findIndex((x, i) => x !== b[i])
  return at < 0 ? 0 : (a[at] ?? lost()) - (b[at] ?? lost())
}

function columnSums(rows: readonly (readonly number[])[]): number[] {
  return (rows[0] ?? []).map((_, j) => rows.reduce((sum, row) => sum + (row[j] ?? lost()), 0))
}

function sumOf(list: readonly number[]): number {
  return list.reduce((sum, x) => sum + x, 0)
}

function sumOfSquares(list: ArrayLike<number>): number {
  let sum = 0
  for (let j = 0; j < list.length; j += 1) sum += (list[j] as number) ** 2
  return sum
}

/** Sorts in place: nearly sorted already, so by insertion. */
function sortFew(list: Int32Array): void {
  for (let i = 1; i < list.length; i += 1) {
    const x = list[i] as number
    let j = i - 1
    for (; j >= 0 && (list[j] as number) > x; j -= 1) list[j + 1] = list[j] as number
    list[j + 1] = x
  }
}

/** Of sorted sums and the same upside down, the one whose outer sums lie lower; true where that is the other one. */
function turnOver(list: Int32Array, height: number): boolean {
  for (let low = 0, high = list.length - 1; low <= high; low += 1, high -= 1) {
    const outer = (list[low] as number) + (list[high] as number)
    if (outer < height) return false
    if (outer > height) {
      for (let a = 0, b = list.length - 1; a <= b; a += 1, b -= 1) {
        const kept = list[a] as number
        list[a] = height - (list[b] as number)
        list[b] = height - kept
      }
      return true
    }
  }
  return false
}

/** All but the last number as digits of one. */
function pack(list: ArrayLike<number>, radix: number): number {
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
