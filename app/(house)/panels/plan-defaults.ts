import type { Draft } from '@/app/ui/act-form'
import { plain } from '@/lib/base/number-format'
import type { PanelReading } from '@/lib/tasks/panel-reading'
import type { PlanBasis } from '@/lib/tasks/read-plan-basis'

/** What a new plan starts from: the house recipe chosen, one point as the smallest difference. */
export function freshPlan({ recipe, houseTrialId, panels }: PlanBasis): Draft {
  return {
    title: `${recipe.name}, panel ${panels + 1}`,
    cups: houseTrialId ? [houseTrialId] : [],
    primaryKind: houseTrialId ? 'against-house' : 'all-pairs',
    smallestDifference: '1',
    seatCount: '24',
    sampleMl: '40',
  }
}

const typedPoints = (tenths: number | null) => (tenths === null ? '' : plain(tenths / 10, 1))

/** A draft as it was typed. */
export function planAsTyped(panel: PanelReading): Draft {
  const { plan } = panel
  return {
    question: panel.question,
    title: panel.title,
    publicTitle: panel.publicTitle,
    cups: plan.cups.filter((cup) => !cup.isDuplicate).map((cup) => cup.trialId),
    duplicate: plan.cups.find((cup) => cup.isDuplicate)?.trialId ?? '',
    aspects: plan.aspects,
    primaryKind: plan.primaryKind,
    pairA: plan.pair[0] ?? '',
    pairB: plan.pair[1] ?? '',
    smallestDifference: typedPoints(plan.smallestDifference),
    notWorseMargin: typedPoints(plan.notWorseMargin),
    seatCount: String(plan.seatCount),
    sampleMl: panel.sampleMl === null ? '' : String(panel.sampleMl),
    seenThrough: panel.seenThrough ?? '',
  }
}
