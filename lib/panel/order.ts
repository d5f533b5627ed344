import { demand } from '@/lib/base/demand'
import { seededRandom, type SeededRandom } from '@/lib/stats/random'
import { efficiency, followCounts, type Orders, pairCounts, positionCounts } from './balance'
import { completeRows } from './complete-order'
import { balancedTrays } from './incomplete-block'
import { exactTrays } from './exact-trays'
import { leastSpread } from './least-spread'
import { evenTrays, type Trays } from './near-balance'
import { orderTrays } from './tray-order'

/** Beyond these the counts in the tests prove nothing. */
const MOST_CUPS = 15
const MOST_TASTERS = 10_000

/** What is served to whom is decided by these numbers and a seed alone. */
export interface OrderPlan {
  /** K, 2 … 15 */
  readonly cups: number
  /** M, servings per taster, 2 … K; all when left out. K or more: every cup, and the copy. */
  readonly perTaster?: number
  /** the cup that is served twice; its copy is numbered K + 1 and stands in the counts like a cup of its own */
  readonly duplicate?: number
  /** a whole number of 32 bits */
  readonly seed: number
}

/** Serving orders and the counts that prove them. */
export interface ServingOrders {
  /** one row per taster: cup numbers from 1, first to last */
  readonly orders: number[][]
  readonly positionCounts: number[][]
  readonly followCounts: number[][]
  readonly pairCounts: number[][]
  readonly efficiency: number
}

/**
 * Who tastes which cups, in which order?
 *
 *     M = K: Williams squares with random labels and rows. Each cup at each place within one; each cup after each other
 *     within one (even K) or two (odd K); all equal when the tasters are a multiple of K (even) or 2K (odd).
 *     M < K: balanced incomplete blocks as often as they fit and the evenest trays for the rest, then an order for each
 *     tray. Every cup equally often (±1), every pair equally often where a design with these numbers is known.
 *
 * @param plan  with tasters N, 1 … 10 000
 * @throws RangeError  a number outside its limits, named; a copy of one of two cups: its tasters would compare two
 *                     pourings with one, and two of them could tell each other which code is which
 *
 * Source   Williams (1949); Fisher and Yates, tables XVII–XIX; Cochran and Cox (1957), ch. 11; ISO 29842
 * Checked  test/unit/panel/order.test.ts, test/reference/williams-1949-squares.test.ts,
 *          test/reference/cochran-1957-incomplete-blocks.test.ts
 * Limits   Balances first-order carry-over only. A copy is dealt like any other cup and meets its twin as often as it
 *          meets any: two that never stood side by side would tell everybody with a serving list which they are.
 */
export function servingOrders(plan: OrderPlan & { readonly tasters: number }): ServingOrders {
  const orders = extendOrders([], plan.tasters, plan)
  const labels = labelsOf(plan)
  return {
    orders,
    positionCounts: positionCounts(orders, labels),
    followCounts: followCounts(orders, labels),
    pairCounts: pairCounts(orders, labels),
    efficiency: efficiency(orders, labels),
  }
}

/**
 * In which orders do tasters who come later get their cups, so that all trays together stay balanced?
 *
 * @param existing  the orders given out so far, from the same plan
 * @param howMany   new tasters
 * @param plan      the same seed may be used again: the number of orders given out enters too
 * @returns         the new orders only. All cups per taster: as if the panel had been planned so large from the start.
 *                  Fewer: cups ±1, pairs and places as even as the rows already there allow.
 * @throws RangeError  a number outside its limits, or an existing order that does not fit the plan
 *
 * Checked  test/unit/panel/order.test.ts
 */
export function extendOrders(existing: Orders, howMany: number, plan: OrderPlan): number[][] {
  const labels = labelsOf(plan)
  const size = Math.min(plan.perTaster ?? labels, labels)
  const complete = size >= plan.cups
  check(plan, existing, howMany, complete ? labels : size)
  const given = existing.map((order) => order.map((cup) => cup - 1))
  const seeded = seededRandom(plan.seed)
  const random = existing.length === 0 ? seeded : seededRandom(seeded.below(2 ** 31) ^ existing.length)
  const rows = complete ? completeRows(given, howMany, labels, random) : someCups(given, howMany, labels, size, random)
  return rows.map((row) => row.map((cup) => cup + 1))
}

/** Sets that are even in everything first; what is left over is made as even as it can be. */
function someCups(given: Trays, howMany: number, cups: number, size: number, random: SeededRandom): number[][] {
  const sets = given.length > 0 ? [] : exactTrays(cups, size, howMany, random)
  const rest = (): Trays => trays(given, howMany - sets.flat().length, cups, size, random)
  let left = rest()
  // A few trays alone can be less even in their pairs than they are together with a set.
  if (sets.length > 0 && pairSpread(left, cups) > leastSpread(howMany, cups, size)) {
    sets.pop()
    left = rest()
  }
  return [...sets.flat(), ...orderTrays(given, left, cups, random)]
}

/** Designs as often as they fit, each with labels of its own, then what is left over. */
function trays(given: Trays, howMany: number, cups: number, size: number, random: SeededRandom): Trays {
  const design = balancedTrays(cups, size)
  if (given.length > 0 || !design) return random.shuffle(evenTrays(given, howMany, cups, size))
  const fits = Math.floor(howMany / design.length)
  const left = howMany - fits * design.length
  const copies = (times: number): Trays[] => Array.from({ length: times }, () => relabelled(design, cups, random))
  if (left === 0) return copies(fits).flat()

  const rest = left === design.length - 1 ? design.slice(1) : evenTrays([], left, cups, size)
  if (fits === 0 || pairSpread(rest, cups) <= leastSpread(howMany, cups, size)) {
    return [...copies(fits), relabelled(rest, cups, random)].flat()
  }
  const joint = evenTrays([], left + design.length, cups, size)
  return [...copies(fits - 1), relabelled(joint, cups, random)].flat()
}

function relabelled(trays: Trays, cups: number, random: SeededRandom): Trays {
  const label = random.shuffle(Array.from({ length: cups }, (_, cup) => cup))
  return random.shuffle(trays.map((tray) => tray.map((cup) => label[cup] ?? 0)))
}

function pairSpread(trays: Trays, cups: number): number {
  const counts = pairCounts(
    trays.map((tray) => tray.map((cup) => cup + 1)),
    cups,
  ).flatMap((cells, row) => cells.slice(0, row))
  return Math.max(...counts) - Math.min(...counts)
}

function labelsOf({ cups, duplicate }: OrderPlan): number {
  return duplicate === undefined ? cups : cups + 1
}

function check(plan: OrderPlan, existing: Orders, howMany: number, size: number): void {
  const whole = (name: string, value: number, low: number, high: number): void =>
    demand(
      Number.isInteger(value) && value >= low && value <= high,
      `${name} must be a whole number from ${low} to ${high}, got ${value}`,
    )
  whole('cups', plan.cups, 2, MOST_CUPS)
  whole('tasters', howMany, 1, MOST_TASTERS)
  if (plan.duplicate !== undefined) {
    whole('duplicate', plan.duplicate, 1, plan.cups)
    // Panels of the first version that have two cups and a copy go on taking seats.
    demand(existing.length > 0 || plan.cups >= 3, `a duplicate needs at least 3 cups, got ${plan.cups}`)
  }
  if (plan.perTaster !== undefined) whole('per-taster', plan.perTaster, 2, labelsOf(plan))
  for (const order of existing) {
    const fits = order.length === size && new Set(order).size === size
    demand(
      fits && order.every((cup) => cup >= 1 && cup <= labelsOf(plan)),
      `not an order of this plan: ${order.join(' ')}`,
    )
  }
}
