import 'server-only'
import { chiSquaredQuantile } from '@/lib/stats/distribution/chi-squared'
import type { AcceptanceAnswer } from '@/lib/stats/liking/acceptance'
import type { PlanKind } from '@/lib/stats/liking/claim-plan'
import { tastersForAcceptance, tastersForNotWorse } from '@/lib/stats/plan/score-power'
import type { Planned } from './panel-answers'

/** How many tasters answer the planned question four times out of five, with a panel's spread. */
export interface Needed {
  readonly tasters: number
  /** the same at the ends of a 90 % interval of the spread: a small panel knows its own spread badly */
  readonly least: number
  readonly most: number
  /** in points: the smallest difference to find, or the margin to stay within */
  readonly difference: number
  readonly for: 'difference' | 'margin'
  /** points about each taster's own mean */
  readonly spread: number
}

const power = 0.8
/** Nobody pours for more: beyond this the answer is "more than". */
const MOST = 100_000

/**
 * Tasters needed for the *planned* smallest difference or margin, from this panel's spread about each taster's own mean.
 * Never from the difference that was seen: that would only repeat the verdict.
 */
export function tastersNeeded(answer: AcceptanceAnswer, plan: Planned): Needed | null {
  const { residual, tasterByCup } = answer.model.variance
  if (residual === null) return null
  const spread = Math.sqrt(residual + (tasterByCup ?? 0))
  const df = answer.counts.scores - answer.counts.tasters - answer.counts.cups + 1
  if (!(spread > 0) || df < 1) return null
  const isMargin = plan.aim === 'as-good' && plan.margin !== null
  const at = (sd: number) => neededAt(sd, answer, plan)
  const end = (p: number) => at(spread * Math.sqrt(df / chiSquaredQuantile(p, df)))
  return {
    tasters: at(spread),
    least: end(0.95),
    most: end(0.05),
    difference: isMargin ? (plan.margin ?? 0) : plan.smallestDifference,
    for: isMargin ? 'margin' : 'difference',
    spread,
  }
}

function neededAt(sd: number, answer: AcceptanceAnswer, plan: Planned): number {
  const question = { sd, cups: plan.kind === 'one-pair' ? 2 : answer.counts.cups, plan: planKinds[plan.kind] ?? 'all' }
  if (sd > 50) return MOST
  const { n } =
    plan.aim === 'as-good' && plan.margin !== null
      ? // at 90 % read from both sides: five per cent each side
        tastersForNotWorse({ ...question, margin: plan.margin, alpha: 0.05 }, { power })
      : tastersForAcceptance({ ...question, difference: plan.smallestDifference, alpha: 1 - answer.level }, { power })
  return Math.min(n, MOST)
}

const planKinds: Readonly<Record<string, PlanKind>> = {
  'all-pairs': 'all',
  'against-house': 'against',
  'one-pair': 'pair',
}
