import { usualAbove, usualShare } from '@/lib/forms/panel-form'
import { usualDifference } from '@/lib/forms/difference-form'
import { differenceAsTyped } from './difference-defaults'
import type { Draft } from '@/app/ui/act-form'
import { plain } from '@/lib/base/number-format'
import type { PanelReading } from '@/lib/tasks/plan/panel-reading'
import type { PlanBasis } from '@/lib/tasks/plan/read-plan-basis'

/** What a new plan starts from: the house recipe chosen, or two trials where there are no others; one point as the smallest difference. */
export function freshPlan({ firstTitle, houseTrialId, trials }: PlanBasis): Draft {
  const onlyTwo = trials.length === 2 ? trials.map(({ id }) => id) : []
  return {
    title: firstTitle,
    kind: 'liking',
    share: String(usualShare),
    odd: usualDifference,
    above: String(usualAbove),
    aim: houseTrialId ? 'better' : 'best',
    cups: houseTrialId ? [houseTrialId] : onlyTwo,
    primaryKind: houseTrialId ? 'against-house' : 'one-pair',
    smallestDifference: '1',
    seatCount: '24',
    sampleMl: '40',
  }
}

const typedPoints = (tenths: number | null) => (tenths === null ? '' : plain(tenths / 10, 1))

/** A draft as it was typed. @param hasHouse  whether there is a house recipe to be compared with */
export function planAsTyped(panel: PanelReading, hasHouse: boolean): Draft {
  const { plan } = panel
  return {
    question: panel.question,
    title: panel.title,
    kind: plan.asks?.kind ?? 'liking',
    mayHaveNone: plan.asks?.kind === 'choice' && plan.asks.none ? 'on' : '',
    share: String(plan.asks?.kind === 'choice' ? plan.asks.share : usualShare),
    odd: differenceAsTyped(plan),
    above: String(plan.asks?.kind === 'rank' ? plan.asks.share : usualAbove),
    publicTitle: panel.publicTitle,
    cups: plan.cups.filter((cup) => !cup.isDuplicate).map((cup) => cup.trialId),
    duplicate: plan.cups.find((cup) => cup.isDuplicate)?.trialId ?? '',
    aspects: plan.aspects.map(({ name, kind, low, high, words }) => ({
      name,
      kind,
      low: low ?? '',
      high: high ?? '',
      words: words.join('\n'),
    })),
    aim: plan.aim,
    primaryKind: hasHouse && plan.primaryKind !== 'one-pair' ? 'against-house' : 'one-pair',
    pairA: (!plan.asks && plan.pair[0]) || '',
    pairB: (!plan.asks && plan.pair[1]) || '',
    smallestDifference: plan.asks ? '' : typedPoints(plan.smallestDifference),
    notWorseMargin: typedPoints(plan.notWorseMargin),
    seatCount: String(plan.seatCount),
    cupsPerTaster: plan.cupsPerTaster === null ? '' : String(plan.cupsPerTaster),
    sampleMl: panel.sampleMl === null ? '' : String(panel.sampleMl),
    seenThrough: plan.seenThrough ?? '',
    nothingSeen: plan.nothingSeen ? 'on' : '',
  }
}
