import 'server-only'
import type { AcceptanceAnswer } from '@/lib/stats/liking/acceptance'
import { furtherAnswers, type FurtherAnswers } from './further-questions'
import { headlineOf, type Headline } from './headline'
import { tastersNeeded, type Needed } from './needed-tasters'
import {
  answerFor,
  planned,
  planOptions,
  resultCups,
  scoreRows,
  type AnsweredPanel,
  type AnsweredServing,
  type Planned,
  type ResultCup,
} from './panel-answers'
import { sayVerdict, type Verdict } from './say-verdict'

/** All that the scores of a closed panel say. The result page shows it, and closing keeps it: one code for both. */
export interface PanelAnswer extends FurtherAnswers {
  readonly plan: Planned
  readonly cups: readonly ResultCup[]
  readonly headline: Headline
  readonly verdict: Verdict
  readonly needed: Needed | null
  /** why there is no answer to the planned question, where there is none */
  readonly why: string | null
  /** the analysis of the plan: its claims carry the verdict */
  readonly primary: AcceptanceAnswer | null
  /** every cup: what one looks at beside; the same as `primary` unless one pair was planned */
  readonly liking: AcceptanceAnswer | null
}

export function answerPanel(panel: AnsweredPanel, servings: readonly AnsweredServing[]): PanelAnswer {
  const cups = resultCups(panel)
  const plan = planned(panel, cups)
  const options = planOptions(plan)
  const [liking, ...further] = panel.attributes
  const rows = scoreRows(servings, cups, liking?.id ?? '')
  const { answer, why } = answerFor(rows, options, plan.margin)
  const scored = cups
    .map(({ letter }) => letter)
    .filter((cup) => rows.some((row) => row.cup === cup && row.score !== null))
  const headline = headlineOf(answer, plan, scored)
  const needed = answer && tastersNeeded(answer, plan)
  return {
    plan,
    cups,
    headline,
    verdict: sayVerdict(headline, cups, plan, needed),
    needed,
    why,
    primary: answer,
    liking: options.plan === 'pair' ? answerFor(rows, { plan: 'all' }, plan.margin).answer : answer,
    ...furtherAnswers(further, liking?.id ?? '', servings, cups),
  }
}
