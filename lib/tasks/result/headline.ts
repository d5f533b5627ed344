import 'server-only'
import type { AcceptanceAnswer } from '@/lib/stats/liking/acceptance'
import { plannedClaims, type PlannedClaim } from './planned-claims'
import type { Planned } from './panel-answers'

/** What a closed panel says to the question it was planned for: a code, and the values its sentence needs. */
export type Headline =
  | { readonly code: 'nothing-scored' }
  | { readonly code: 'one-cup-scored'; readonly cup: string }
  /** the yardstick, or a cup of the one pair, got no score */
  | { readonly code: 'yardstick-unscored'; readonly cups: readonly string[] }
  | { readonly code: 'too-few-tasters'; readonly tasters: number; readonly compared: readonly PlannedClaim[] }
  | { readonly code: 'never-varied'; readonly score: number; readonly compared: readonly PlannedClaim[] }
  | { readonly code: 'best-alone'; readonly best: string; readonly over: readonly PlannedClaim[] }
  | { readonly code: 'some-better'; readonly compared: readonly PlannedClaim[] }
  | { readonly code: 'none-told'; readonly cups: readonly string[]; readonly compared: readonly PlannedClaim[] }
  | { readonly code: 'beside-yardstick'; readonly compared: readonly PlannedClaim[] }
  | { readonly code: 'as-good'; readonly margin: number; readonly compared: readonly PlannedClaim[] }

/**
 * Which sentence does the plan's question get? Read off the claims and nothing else; DEVELOPERS.md has the table.
 *
 * @param scored  the cups somebody scored
 */
export function headlineOf(answer: AcceptanceAnswer | null, plan: Planned, scored: readonly string[]): Headline {
  if (!answer || scored.length === 0) return { code: 'nothing-scored' }
  const needed = neededCups(plan).filter((cup) => !scored.includes(cup))
  if (needed.length > 0) return { code: 'yardstick-unscored', cups: needed }
  const compared = plannedClaims(answer, yardstickOf(plan))
  if (compared.length === 0) return { code: 'one-cup-scored', cup: scored[0] ?? '' }
  if (compared.every(({ claim }) => claim === 'too few tasters'))
    return { code: 'too-few-tasters', tasters: Math.max(...compared.map(({ tasters }) => tasters)), compared }
  const only = onlyScore(answer)
  if (plan.aim === 'as-good' && plan.margin !== null) return { code: 'as-good', margin: plan.margin, compared }
  if (only !== null) return { code: 'never-varied', score: only, compared }
  if (plan.kind !== 'all-pairs') return { code: 'beside-yardstick', compared }
  const told = compared.filter(({ claim }) => claim === 'better' || claim === 'worse')
  if (told.length === 0) return { code: 'none-told', cups: answer.cups.map(({ cup }) => cup), compared }
  const [best, ...others] = answer.top ?? []
  const over = told.filter(({ first }) => first === best)
  return best !== undefined && others.length === 0 && over.length === answer.counts.cups - 1
    ? { code: 'best-alone', best, over: over.toSorted((one, two) => one.difference - two.difference) }
    : { code: 'some-better', compared }
}

/** Which cup is spoken of, and beside which one: of a pair the first is asked about, the second is its yardstick. */
export function yardstickOf({ kind, house, pair }: Planned): string | null {
  return kind === 'against-house' ? house : kind === 'one-pair' ? pair[1] : null
}

function neededCups({ kind, house, pair }: Planned): string[] {
  const cups = kind === 'against-house' ? [house] : kind === 'one-pair' ? pair : []
  return cups.flatMap((cup) => cup ?? [])
}

/** The score that every serving got; null where scores differ. */
function onlyScore({ cups }: AcceptanceAnswer): number | null {
  const [first] = cups
  if (!first || cups.some((cup) => cup.mean !== first.mean || (cup.sd !== null && cup.sd > 0))) return null
  return first.mean
}
