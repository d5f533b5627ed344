import 'server-only'
import type { FirstAnswer as AcceptanceAnswer } from '@/lib/stats/liking/first-answer'
import {
  answerFor,
  planned,
  primaryAnswer,
  resultCups,
  scoreRows,
  type AnsweredPanel,
  type AnsweredServing,
  type AspectAnswer,
  type Planned,
  type ResultCup,
} from './panel-answers'
import { comparisons, sayVerdict, tastersNeeded, turned, type Needed, type Turned, type Verdict } from './say-verdict'

/**
 * What the first rule told of a closed panel, as it stood when 0002 was made. It and what it imports from this folder are kept as
 * they were: a house that comes from before is told what it always was.
 */
export interface PanelAnswer {
  readonly plan: Planned
  readonly cups: readonly ResultCup[]
  readonly verdict: Verdict
  readonly needed: Needed | null
  /** why there is no answer to the planned question, where there is none */
  readonly why: string | null
  /** the planned comparisons */
  readonly primary: readonly Turned[]
  /** every pair, with p over all pairs */
  readonly pairs: readonly Turned[]
  readonly liking: AcceptanceAnswer | null
  readonly aspects: readonly AspectAnswer[]
}

export function answerPanel(panel: AnsweredPanel, servings: readonly AnsweredServing[]): PanelAnswer {
  const cups = resultCups(panel)
  const plan = planned(panel, cups)
  const [liking, ...further] = panel.attributes
  const rows = scoreRows(servings, cups, liking?.id ?? '')
  const whole = answerFor(rows, plan)
  const primary = plan.kind === 'one-pair' ? primaryAnswer(rows, plan) : whole
  return {
    plan,
    cups,
    verdict: sayVerdict(primary.answer, cups, plan),
    needed: primary.answer ? tastersNeeded(primary.answer, plan) : null,
    why: primary.why,
    primary: primary.answer ? comparisons(primary.answer) : [],
    pairs: whole.answer ? everyPair(whole.answer) : [],
    liking: whole.answer,
    aspects: further.map((one) => ({
      attributeId: one.id,
      name: one.name,
      // The page shows the effect of order for overall liking alone.
      ...answerFor(
        scoreRows(servings, cups, one.id).map((row) => ({ ...row, position: null })),
        { ...plan, margin: null },
      ),
    })),
  }
}

/** Every pair, liked better first, with p over all pairs: what one looks at after the planned comparison. */
function everyPair(answer: AcceptanceAnswer): Turned[] {
  const all = { ...answer, control: null }
  return all.pairs.map((pair) => turned(all, pair, pair.difference >= 0 ? pair.a : pair.b))
}
