import 'server-only'
import { designOf, type SetDesign } from '@/lib/panel/kinds/kinds'
import type { AcceptanceAnswer } from '@/lib/stats/liking/acceptance'
import { furtherAnswers, type FurtherAnswers } from './further-questions'
import { headlineOf, type Headline } from './headline'
import { laterAnswers } from './answered-sets'
import { answerChoice, type ChoiceResult } from './choice-answer'
import { findDifference, type DifferenceResult } from './difference-answer'
import { sayDifference } from './say-difference'
import { answerRank } from './rank-answer'
import type { RankResult } from './rank-result'
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
import { nameOf, sayVerdict, type Verdict } from './say-verdict'

/** All that the scores of a closed panel say. The result page shows it, and closing keeps it: one code for both. */
export interface PanelAnswer extends FurtherAnswers {
  readonly plan: Planned
  readonly cups: readonly ResultCup[]
  /** of liking; null where another question has its own analysis */
  readonly headline: Headline | null
  readonly verdict: Verdict
  readonly needed: Needed | null
  /** why there is no answer to the planned question, where there is none */
  readonly why: string | null
  /** the analysis of the plan: its claims carry the verdict */
  readonly primary: AcceptanceAnswer | null
  /** every cup: what one looks at beside; the same as `primary` unless one pair was planned */
  readonly liking: AcceptanceAnswer | null
  /** of a panel that asked which of two is preferred */
  readonly choice: ChoiceResult | null
  /** of a panel that asked whether two can be told apart */
  readonly difference: DifferenceResult | null
  /** of one whose tasters put all cups in order */
  readonly rank: RankResult | null
}

/** @param later  seats whose answer about a set is a person's later one, where that is known from closing */
export function answerPanel(
  panel: AnsweredPanel,
  servings: readonly AnsweredServing[],
  later: readonly number[] | null = null,
): PanelAnswer {
  const { kind = 'liking', design = null } = panel
  const asks = designOf({ kind, design })
  return asks ? answerSets(asks, panel, servings, later ?? laterAnswers(servings)) : answerLiking(panel, servings)
}

/** A panel that asked about sets: its own analysis carries the verdict, and of liking it knows nothing. */
function answerSets(
  asks: SetDesign,
  panel: AnsweredPanel,
  servings: readonly AnsweredServing[],
  later: readonly number[],
): PanelAnswer {
  const cups = resultCups(panel)
  const plan = planned(panel, cups)
  return {
    plan,
    cups,
    headline: null,
    ...{ choice: null, rank: null, difference: null },
    ...answerOf(asks, servings, cups, { later, more: plan.pair[0] }),
    ...{ needed: null, why: null, primary: null, liking: null },
    ...{ aspects: [], drops: [], ticked: [] },
  }
}

function answerOf(
  asks: SetDesign,
  servings: readonly AnsweredServing[],
  cups: readonly ResultCup[],
  how: { readonly later: readonly number[]; readonly more: string | null },
): Pick<PanelAnswer, 'verdict'> & Partial<Pick<PanelAnswer, 'choice' | 'rank' | 'difference'>> {
  if (asks.kind === 'choice') return answerChoice(asks, servings, cups, how.later)
  if (asks.kind === 'rank') return answerRank(asks, servings, cups, how.later)
  const difference = findDifference(asks, servings, cups, how)
  return { difference, verdict: sayDifference(difference, nameOf(cups)) }
}

function answerLiking(panel: AnsweredPanel, servings: readonly AnsweredServing[]): PanelAnswer {
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
    ...{ choice: null, rank: null, difference: null },
    liking: options.plan === 'pair' ? answerFor(rows, { plan: 'all' }, plan.margin).answer : answer,
    ...furtherAnswers(further, liking?.id ?? '', servings, cups),
  }
}
