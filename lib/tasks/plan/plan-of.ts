import 'server-only'
import type { PanelRecord } from '@/lib/db/panels'
import { designOf, pouringsOf } from '@/lib/panel/kinds/kinds'
import { findAim, primaryKinds, type Plan } from '@/lib/panel/plan'
import { questionOf } from '@/lib/panel/question'

/** The plan in a panel's row, with today's house recipe: until it opens, the house recipe may still change. */
export function planOf(panel: PanelRecord, houseTrialId: string | null): Plan {
  const primaryKind = primaryKinds.find((kind) => kind === panel.primaryKind) ?? 'all-pairs'
  return {
    cups: panel.cups.map(({ trialId, isDuplicate }) => ({ trialId, isDuplicate, isHouse: trialId === houseTrialId })),
    aspects: panel.attributes.filter(({ position, about }) => position > 0 && about === 'serving').map(questionOf),
    seatCount: panel.seatCount,
    cupsPerTaster: panel.cupsPerTaster,
    aim: findAim(panel.aim, { primaryKind, notWorseMargin: panel.notWorseMargin }),
    primaryKind,
    pair: [panel.primaryTrialAId, panel.primaryTrialBId],
    smallestDifference: panel.smallestDifference,
    notWorseMargin: panel.notWorseMargin,
    seenThrough: panel.seenThrough,
    nothingSeen: panel.nothingSeen,
    asks: designOf(panel),
  }
}

/** What a panel's trays hold, as portions are counted. */
export function traysOf(panel: Pick<PanelRecord, 'kind' | 'design' | 'cups' | 'cupsPerTaster'>) {
  return { cups: panel.cups.length, cupsPerTaster: panel.cupsPerTaster, pourings: pouringsOf(panel) }
}
