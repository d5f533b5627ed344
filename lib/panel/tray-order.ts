import type { SeededRandom } from '@/lib/stats/random'

/** Rows of cups numbered from 0, in the order of tasting. */
type Rows = readonly (readonly number[])[]

const OPENING_LIMIT = 6
const STEPS_PER_ROW = 150
const FEWEST_STEPS = 40_000
const MOST_STEPS = 150_000
const ATTEMPTS = 8

/**
 * In which order does each taster taste the cups of an incomplete tray?
 *
 *     least Σ (times cup c stands at place p)² + Σ (times cup b follows cup a)², by swapping two cups of a tray,
 *     worse swaps allowed at first; of several attempts the one with the evenest places, then with the evenest followers
 *
 * @param existing  orders given out before; they count, and stay as they are
 * @param trays     cups from 0, all of one size
 * @param cups      number of labels
 * @returns         the same trays in the order of tasting; counts of each cup at each place within two of each other
 *
 * Source   threshold accepting, Dueck and Scheuer (1990), J. Comput. Phys. 90, 161–175
 * Checked  test/unit/panel/tray-order.test.ts
 * Limits   After `existing` rows that were uneven themselves, as even as a few new rows can make it.
 * Cost     at most 8 attempts of 40 000 to 150 000 swaps, fewer when one is as even as counting allows
 */
export function orderTrays(existing: Rows, trays: Rows, cups: number, random: SeededRandom): number[][] {
  let best: TrayOrders | null = null
  for (let attempt = 0; attempt < ATTEMPTS; attempt += 1) {
    const tried = new TrayOrders(existing, trays, cups, random)
    tried.settle()
    if (!best || tried.isEvenerThan(best)) best = tried
    if (best.isEven()) break
  }
  return best?.rows() ?? []
}

class TrayOrders {
  private readonly size: number
  private readonly cup: Int32Array
  private readonly places: Int32Array
  private readonly follows: Int32Array

  constructor(
    existing: Rows,
    private readonly trays: Rows,
    private readonly cups: number,
    private readonly random: SeededRandom,
  ) {
    this.size = trays[0]?.length ?? 0
    this.cup = Int32Array.from(trays.flatMap((tray) => random.shuffle(tray)))
    this.places = new Int32Array(cups * this.size)
    this.follows = new Int32Array(cups * cups)
    for (const row of [...existing, ...this.rows()]) {
      row.forEach((cup, place) => {
        this.place(cup, place, 1)
        const before = row[place - 1]
        if (before !== undefined) this.follow(before, cup, 1)
      })
    }
  }

  rows(): number[][] {
    return this.trays.map((_, row) => [...this.cup.subarray(row * this.size, (row + 1) * this.size)])
  }

  isEvenerThan(other: TrayOrders): boolean {
    const first = [Math.max(1, range(this.places)), sumOfSquares(this.follows)] as const
    const second = [Math.max(1, range(other.places)), sumOfSquares(other.follows)] as const
    return first[0] < second[0] || (first[0] === second[0] && first[1] < second[1])
  }

  /** As even as whole numbers can be: no count differs from another by more than one, by none where they come out whole. */
  isEven(): boolean {
    const between = this.follows.filter((_, cell) => cell % (this.cups + 1) !== 0)
    const whole = between.reduce((sum, count) => sum + count, 0) % between.length === 0
    return range(this.places) <= 1 && range(between) <= (whole ? 0 : 1)
  }

  settle(): void {
    const rows = this.trays.length
    if (this.size < 2) return
    const steps = Math.min(MOST_STEPS, Math.max(FEWEST_STEPS, STEPS_PER_ROW * rows))
    for (let step = 0; step < steps; step += 1) {
      const limit = Math.floor(OPENING_LIMIT * (1 - step / (0.9 * steps)))
      const allowed = limit > 0 ? this.random.below(limit + 1) : 0
      const row = this.random.below(rows)
      const a = this.random.below(this.size)
      const b = this.random.below(this.size - 1)
      const [early, late] = b >= a ? [a, b + 1] : [b, a]
      if (this.swap(row, early, late) > allowed) this.swap(row, early, late)
    }
  }

  private place(cup: number, place: number, by: 1 | -1): number {
    const cell = cup * this.size + place
    const count = this.places[cell] ?? 0
    this.places[cell] = count + by
    return by * (2 * count + by)
  }

  private follow(before: number, after: number, by: 1 | -1): number {
    const cell = before * this.cups + after
    const count = this.follows[cell] ?? 0
    this.follows[cell] = count + by
    return by * (2 * count + by)
  }

  /** The neighbours that a swap of two places touches. */
  private touching(row: number, early: number, late: number, by: 1 | -1): number {
    let cost = this.meeting(row, early, by) + this.meeting(row, early + 1, by)
    if (late > early + 1) cost += this.meeting(row, late, by)
    return cost + this.meeting(row, late + 1, by)
  }

  private meeting(row: number, place: number, by: 1 | -1): number {
    if (place === 0 || place >= this.size) return 0
    const at = row * this.size + place
    return this.follow(this.cup[at - 1] ?? 0, this.cup[at] ?? 0, by)
  }

  /** @returns what it cost */
  private swap(row: number, early: number, late: number): number {
    const first = row * this.size
    const a = this.cup[first + early] ?? 0
    const b = this.cup[first + late] ?? 0
    let cost = this.touching(row, early, late, -1) + this.place(a, early, -1) + this.place(b, late, -1)
    this.cup[first + early] = b
    this.cup[first + late] = a
    cost += this.touching(row, early, late, 1) + this.place(b, early, 1) + this.place(a, late, 1)
    return cost
  }
}

function range(counts: Int32Array): number {
  return Math.max(...counts) - Math.min(...counts)
}

function sumOfSquares(counts: Int32Array): number {
  return counts.reduce((sum, count) => sum + count * count, 0)
}
