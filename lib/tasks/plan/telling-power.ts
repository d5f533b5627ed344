import 'server-only'
import type { DifferenceDesign } from '@/lib/panel/kinds/difference'
import { tastersForDifference, tastersForSimilarity } from '@/lib/stats/plan/choice-power'
import { repeatedPower, tastersForRepeated } from '@/lib/stats/plan/repeated-difference'
import { ALPHA, POWER } from './read-plan-figures'

type Asked = Pick<DifferenceDesign, 'aim' | 'protocol' | 'each' | 'share'>

/** How likely a plan reaches its aim, and the count of right answers that decides it. */
export interface TellingPower {
  readonly n: number
  readonly answers: number
  /** at least so many right show a difference; at most so many show that few can tell; null: no count does */
  readonly critical: number | null
  readonly power: number
}

/** Beyond so many nobody plans a panel of which each taster answers several times. */
const MOST = 400

/**
 * With so many tasters, how likely is the plan's aim reached?
 *
 *     differ: the planned share can really tell; alike: nobody can
 *
 * Source   the exact tests themselves: `tastersForDifference`, `tastersForSimilarity`, `repeatedPower`
 * Checked  test/integration/panel/difference-plan.test.ts
 */
export function tellingPower({ aim, protocol, each, share }: Asked, n: number): TellingPower {
  const question = { protocol, pd: share / 100, alpha: ALPHA }
  if (aim === 'differ') return repeatedPower({ ...question, each }, n)
  const { critical, power } = tastersForSimilarity(question, { n })
  return { n, answers: n, critical: critical ?? null, power }
}

/** How many tasters reach it four times out of five? @returns null where a panel of several answers each grows beyond reach */
export function tastersForTelling({ aim, protocol, each, share }: Asked): TellingPower | null {
  const question = { protocol, pd: share / 100, alpha: ALPHA }
  if (aim === 'differ' && each > 1) return tastersForRepeated({ ...question, each }, POWER, MOST)
  const plan = aim === 'alike' ? tastersForSimilarity : tastersForDifference
  const { n, critical, power } = plan(question, { power: POWER })
  return { n, answers: n, critical: critical ?? null, power }
}
