import 'server-only'
import type { TypedFigures } from '@/lib/forms/plan-figures-form'
import { rankLimits } from '@/lib/panel/kinds/rank'
import { mlToPour, portionsPerCup } from '@/lib/panel/portions'
import { tastersForPreference } from '@/lib/stats/plan/choice-power'
import { fewestForOrders, playOrders, type PlayedOrders } from '@/lib/stats/plan/rank-power'
import { ALPHA, POWER } from './read-plan-figures'

/** So that the same plan says the same each time. */
const SEED = 20261128
/** Played while somebody types and others taste: of large panels fewer, whose error in a hundred is below five, taken twice. */
const panelsOf = (servings: number) => (servings <= 300 ? 1000 : 500)

/** What a plan of an order comes to, as far as it is typed. */
export interface RankFigures {
  /** tasters who tell two named cups apart where the planned share puts one above the other, four times out of five */
  readonly tasters: number | null
  /** with the seats now typed, one cup best and the others alike: how often it stands above all, another above it */
  readonly played: (PlayedOrders & { readonly seats: number }) | null
  /** fewer than these can tell no pair; null while the cups are no three to six */
  readonly fewest: number | null
  readonly share: number | null
  readonly perTasterMl: number | null
  readonly perCupMl: number | null
}

/**
 * Works out a plan of an order while it is typed. The chance is played, panels of Plackett and Luce’s orders read as the
 * real one will be; the number of tasters is exact, for one pair at Holm’s hardest step.
 *
 * Checked  test/integration/panel/rank-plan.test.ts, test/reference/order-power.test.ts
 */
export function readRankFigures({ cups, seats, above: share, ml }: TypedFigures): RankFigures {
  const isOrder = cups !== null && cups >= rankLimits.cups.least && cups <= rankLimits.cups.most
  const fewest = isOrder ? fewestForOrders(cups, ALPHA) : null
  const each = isOrder ? { cups, cupsPerTaster: null } : null
  return {
    tasters: isOrder && share !== null ? tastersForOrder(cups, share) : null,
    played:
      isOrder && share !== null && seats !== null
        ? {
            seats,
            ...playOrders(
              { tasters: seats, cups, share: share / 100, alpha: ALPHA, seed: SEED },
              panelsOf(seats * cups),
            ),
          }
        : null,
    fewest,
    share,
    perTasterMl: each === null || ml === null ? null : each.cups * ml,
    perCupMl: each === null || ml === null || seats === null ? null : mlToPour(portionsPerCup({ seats, ...each }), ml),
  }
}

/** How many put cups in order before a pair that the share puts apart is told, four times out of five. @param share  in percent */
export function tastersForOrder(cups: number, share: number): number {
  const pairs = (cups * (cups - 1)) / 2
  return tastersForPreference({ share: share / 100, alpha: ALPHA / pairs }, { power: POWER }).n
}
