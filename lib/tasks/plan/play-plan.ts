import 'server-only'
import { servingOrders } from '@/lib/panel/order'
import type { PlanKind } from '@/lib/stats/liking/claim-plan'
import { rehearse, type Rehearsed } from '@/lib/stats/plan/rehearse'
import { tastersForBest, type TastersForBest } from '@/lib/stats/plan/tasters-for-best'

/** A plan as a worker is handed it: plain numbers. */
export interface PlanQuestion {
  readonly cups: number
  readonly seats: number
  /** cups for each taster */
  readonly each: number
  readonly sd: number
  /** how much better one cup is than the others */
  readonly difference: number
  readonly plan: PlanKind
  readonly level: number
  readonly margin: number | null
  readonly marginLevel: number
  /** how many tasters let the best stand alone with this chance, of so many at most; null where that is not asked */
  readonly best: { readonly power: number; readonly most: number } | null
  readonly panels: number
  readonly seed: number
}

export interface PlayedPlan {
  readonly rehearsed: Rehearsed
  /** where every taster gets every cup */
  readonly best: TastersForBest | null
}

/** Plays a plan through the code that reads a closed panel. Same question, same answer, in whatever thread. */
export function playPlan(question: PlanQuestion): PlayedPlan {
  const { cups, seats, each, sd, difference, plan, level, margin, marginLevel, best, panels, seed } = question
  const trays = each < cups ? servingOrders({ cups, tasters: seats, perTaster: each, seed }).orders : undefined
  return {
    rehearsed: rehearse(
      {
        cups,
        tasters: seats,
        sd,
        difference,
        trays,
        plan,
        level,
        ...(margin === null ? {} : { margin, marginLevel }),
        seed,
      },
      panels,
    ),
    best: best && tastersForBest({ cups, sd, difference, level, seed }, best.power, panels, best.most),
  }
}
