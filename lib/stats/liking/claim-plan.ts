import { byLabel } from '../label-order'
import { UnusableReadings } from '../outcome'

/** Which comparisons were planned: every pair, every cup against one, or a single pair. */
export const PLAN_KINDS = ['all', 'against', 'pair'] as const
export type PlanKind = (typeof PLAN_KINDS)[number]

/** The comparisons fixed before the first cup; their number decides how far each interval reaches. */
export interface ClaimPlan {
  readonly plan: PlanKind
  /** against: the other cup, then the control; otherwise in label order */
  readonly pairs: readonly (readonly [a: string, b: string])[]
}

export interface PlanOptions {
  /** left out: against where there is a control, pair where there is a pair, otherwise all */
  readonly plan?: PlanKind
  readonly control?: string
  readonly pair?: readonly [string, string]
}

/**
 * Which comparisons belong to the plan, a cup that nobody scored included?
 *
 * @param cups  every cup that was poured
 * @throws UnusableReadings  a control or pair that the plan needs and that is not given, or that is not among the cups
 *
 * Source   Tukey (1953), The Problem of Multiple Comparisons (the family is chosen before the scores are seen)
 * Checked  test/unit/stats/liking/claim-plan.test.ts
 */
export function claimPlan(cups: readonly string[], { plan, control, pair }: PlanOptions): ClaimPlan {
  const sorted = [...cups].sort(byLabel)
  const known = (cup: string, what: string): string => {
    if (!sorted.includes(cup))
      throw new UnusableReadings(`no cup is called ${cup}, the ${what}: there are ${sorted.join(', ')}`)
    return cup
  }
  const kind = plan ?? (pair ? 'pair' : control === undefined ? 'all' : 'against')
  if (control !== undefined) known(control, 'control')
  if (kind === 'against') {
    if (control === undefined) throw new UnusableReadings('a plan against one cup needs to know which: a control')
    return { plan: kind, pairs: sorted.filter((cup) => cup !== control).map((cup) => [cup, control] as const) }
  }
  if (kind === 'pair') {
    if (!pair) throw new UnusableReadings('a plan of one pair needs to know which')
    const [a = '', b = ''] = [...pair].map((cup) => known(cup, 'pair')).sort(byLabel)
    if (a === b) throw new UnusableReadings(`a pair is two cups, got ${a} twice`)
    return { plan: kind, pairs: [[a, b]] }
  }
  return { plan: kind, pairs: sorted.flatMap((a, i) => sorted.slice(i + 1).map((b) => [a, b] as const)) }
}
