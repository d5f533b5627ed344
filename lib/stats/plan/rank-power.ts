import { demand } from '@/lib/base/demand'
import { chiSquaredUpper } from '../distribution/chi-squared'
import { holm, isAtMost } from '../multiplicity'
import { signTest } from '../choice/sign-test'
import { pairsBelow } from '../taster-table'
import { seededRandom, type SeededRandom } from '../random'

/** A panel in which every taster puts all cups in order, one of them being the best and the others alike. */
export interface OrderPlan {
  readonly tasters: number
  readonly cups: number
  /** of those who compare the best with any one other, how many put it above, ½ ≤ share < 1 */
  readonly share: number
  readonly alpha: number
  readonly seed: number
}

export interface PlayedOrders {
  readonly panels: number
  /** share of panels that put the best above every other cup */
  readonly alone: number
  /** that put another cup above the best */
  readonly misled: number
  /** whose first test says that the cups differ at all */
  readonly differ: number
}

/**
 * How often does a panel of orders find its best cup?
 *
 *     a taster's order is that of E₁/w₁ … E_k/w_k, upwards,   E exponential, w = share / (1 − share) for the best, 1 for the others
 *     so that P(best above another) = w / (w + 1) = share:  orders of Plackett and Luce
 *     read as a panel is: Friedman's test at alpha, then the exact sign test of every pair, Holm over all pairs
 *
 * @param plan    1 … 400 tasters, 2 … 15 cups
 * @param panels  how many are played; the error of a share s is √(s (1 − s) / panels)
 * @throws RangeError  a number outside its range
 *
 * Source   Plackett (1975), Applied Statistics 24, 193–202; exponential races: Luce (1959), Individual Choice Behavior
 * Checked  test/reference/order-power.test.ts
 * Limits   Friedman's p is that of chi-squared here, so `differ` is rough for few tasters; `alone` is not, as whatever cup is above
 *          all others by every sign test has a Friedman p below alpha, too (the unit test looks). Tasters are taken to be alike.
 * Cost     panels · tasters · cups²
 */
export function playOrders({ tasters, cups, share, alpha, seed }: OrderPlan, panels: number): PlayedOrders {
  demand(Number.isInteger(tasters) && tasters >= 1 && tasters <= 400, `1 to 400 tasters, got ${tasters}`)
  demand(Number.isInteger(cups) && cups >= 2 && cups <= 15, `2 to 15 cups, got ${cups}`)
  demand(share >= 0.5 && share < 1, `the share must lie from one half to below 1, got ${share}`)
  demand(Number.isInteger(panels) && panels >= 1, `at least one panel is played, got ${panels}`)
  const random = seededRandom(seed)
  const pairs = pairsBelow(cups)
  const signs = Array.from({ length: tasters + 1 }, (_, liked) => signTest(liked, tasters - liked))
  const count = { alone: 0, misled: 0, differ: 0 }
  for (let panel = 0; panel < panels; panel += 1) {
    const above = playPanel({ tasters, cups, share }, random)
    if (!isAtMost(friedmanP(above, tasters), alpha)) continue
    count.differ += 1
    const liked = pairs.map(([a, b]) => above[a * cups + b] as number)
    const adjusted = holm(liked.map((one) => signs[one] as number))
    const told = pairs.flatMap(([a], at) =>
      a === 0 && isAtMost(adjusted[at] as number, alpha) ? [(liked[at] as number) * 2 > tasters] : [],
    )
    if (told.filter(Boolean).length === cups - 1) count.alone += 1
    if (told.includes(false)) count.misled += 1
  }
  return {
    panels,
    alone: count.alone / panels,
    misled: count.misled / panels,
    differ: count.differ / panels,
  }
}

/** Cup 0 is the best. @returns how many put cup a above cup b, at a · cups + b */
function playPanel({ tasters, cups, share }: Pick<OrderPlan, 'tasters' | 'cups' | 'share'>, random: SeededRandom) {
  const worth = share / (1 - share)
  const above = new Int32Array(cups * cups)
  const times = new Float64Array(cups)
  for (let taster = 0; taster < tasters; taster += 1) {
    for (let cup = 0; cup < cups; cup += 1) times[cup] = -Math.log(1 - random.unit()) / (cup === 0 ? worth : 1)
    for (let a = 0; a < cups; a += 1) {
      for (let b = a + 1; b < cups; b += 1) {
        const at = (times[a] as number) < (times[b] as number) ? a * cups + b : b * cups + a
        above[at] = (above[at] as number) + 1
      }
    }
  }
  return above
}

/** A rank sum is n · cups less the times its cup stood above another; only the distance from their mean counts. */
function friedmanP(above: Int32Array, tasters: number): number {
  const cups = Math.sqrt(above.length)
  let squares = 0
  for (let a = 0; a < cups; a += 1) {
    let over = 0
    for (let b = 0; b < cups; b += 1) over += above[a * cups + b] as number
    squares += (over - (tasters * (cups - 1)) / 2) ** 2
  }
  return chiSquaredUpper((12 * squares) / (tasters * cups * (cups + 1)), cups - 1)
}

/**
 * How many tasters does it take before any pair of cups can be told apart by their orders?
 *
 *     smallest n with m · 2 · 2⁻ⁿ ≤ alpha,   m = cups (cups − 1) / 2 pairs, all n of one mind
 *
 * Source   Holm (1979): the smallest of m p values is multiplied by m; the sign test of n who agree has p = 2 · 2⁻ⁿ
 * Checked  test/unit/stats/plan/rank-power.test.ts
 */
export function fewestForOrders(cups: number, alpha: number): number {
  const pairs = (cups * (cups - 1)) / 2
  let n = 1
  while (pairs * 2 ** (1 - n) > alpha) n += 1
  return n
}
