import 'server-only'
import type { RankDesign } from '@/lib/panel/kinds/rank'
import { isAtMost } from '@/lib/stats/multiplicity'
import { isCountedSoon } from '@/lib/stats/rank/friedman'
import { ranking, type Ranking } from '@/lib/stats/rank/ranking'
import { fewestForOrders } from '@/lib/stats/plan/rank-power'
import { tastersForOrder } from '../plan/rank-figures'
import { ALPHA } from '../plan/read-plan-figures'
import { answeredSets, countedSets } from './answered-sets'
import type { AnsweredServing, ResultCup } from './panel-answers'
import type { RankedCup, RankedCups, RankResult } from './rank-result'
import { sayOrder } from './say-order'
import { nameOf, type Verdict } from './say-verdict'

/**
 * Which of these is liked best, and which are told apart?
 *
 *     Friedman's test at 5 %, exact where the orders are counted soon; where it says that the cups differ, the exact sign test of
 *     every pair after Holm, which holds whatever is true of the other cups
 *
 * @param later  seats whose answer does not count as it is a person's later one; kept from closing, as names go with time
 *
 * Source   ISO 8587; Friedman (1937); Holm (1979)
 * Checked  test/integration/panel/rank-result.test.ts, test/reference/order-power.test.ts
 */
export function answerRank(
  design: RankDesign,
  servings: readonly AnsweredServing[],
  cups: readonly ResultCup[],
  later: readonly number[],
): { readonly rank: RankResult; readonly verdict: Verdict } {
  const sets = answeredSets(servings, cups)
  const letters = cups.map(({ letter }) => letter)
  const orders = countedSets(sets, later).flatMap(({ seat, letters: order }) =>
    order && letters.every((letter) => order.includes(letter)) ? [{ seat, order }] : [],
  )
  const found = orders.length === 0 ? null : read(orders, letters)
  const first = found && firstTest(found)
  const pairs = found ? pairsOf(found, first?.differ ?? false) : []
  const rank: RankResult = {
    kind: 'rank',
    tasters: orders.length,
    without: sets.filter(({ seat }) => !later.includes(seat)).length - orders.length,
    cups: cupsOf(letters, orders, found),
    ...{ first, pairs },
    best: letters.find((letter) => standsAbove(letter, pairs) === letters.length - 1) ?? null,
    later: [...later],
    fewest: fewestForOrders(letters.length, ALPHA),
    needed: tastersForOrder(letters.length, design.share),
    sought: design.share,
  }
  return { rank, verdict: sayOrder(rank, nameOf(cups)) }
}

interface Order {
  readonly seat: number
  /** letters, the one liked best first */
  readonly order: readonly string[]
}

function read(orders: readonly Order[], letters: readonly string[]): Ranking {
  const rows = orders.flatMap(({ seat, order }) =>
    letters.map((cup) => ({ taster: String(seat), cup, rank: order.indexOf(cup) + 1 })),
  )
  return ranking(rows, { level: 1 - ALPHA, exact: isCountedSoon(orders.length, letters.length) })
}

function firstTest({ friedman }: Ranking): RankResult['first'] {
  if (!friedman || friedman.chiSquared === null || friedman.p === null) return null
  const { chiSquared, df, pExact } = friedman
  const p = pExact ?? friedman.p
  return { by: pExact === null ? 'chi-squared' : 'exact', chiSquared, df, p, differ: isAtMost(p, ALPHA) }
}

function pairsOf({ pairs }: Ranking, differ: boolean): RankedCups[] {
  return pairs.map(({ a, b, likedA, likedB, signTest, signHolm }) => {
    const [above, below, liked, likedOther] = likedB > likedA ? [b, a, likedB, likedA] : [a, b, likedA, likedB]
    return {
      ...{ above, below, liked, likedOther },
      p: differ ? signTest : null,
      pHolm: differ ? signHolm : null,
      told: differ && isAtMost(signHolm, ALPHA),
    }
  })
}

/** Above how many others is this cup told to stand? */
function standsAbove(letter: string, pairs: readonly RankedCups[]): number {
  return pairs.filter(({ above, told }) => told && above === letter).length
}

function cupsOf(letters: readonly string[], orders: readonly Order[], found: Ranking | null): RankedCup[] {
  return letters
    .map((cup) => {
      const places = letters.map((_, at) => orders.filter(({ order }) => order[at] === cup).length)
      const worth = found?.worth?.find((one) => one.cup === cup)
      return {
        ...{ cup, places },
        meanPlace: found?.cups.find((one) => one.cup === cup)?.meanRank ?? 0,
        worth: worth ? { value: worth.worth, se: worth.se } : null,
      }
    })
    .toSorted((a, b) => a.meanPlace - b.meanPlace)
}
