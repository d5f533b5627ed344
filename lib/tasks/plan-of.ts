import 'server-only'
import type { PanelRecord } from '@/lib/db/panels'
import { primaryKinds, type Plan } from '@/lib/panel/plan'

/** The plan in a panel's row, with today's house recipe: until it opens, the house recipe may still change. */
export function planOf(panel: PanelRecord, houseTrialId: string | null): Plan {
  return {
    cups: panel.cups.map(({ trialId, isDuplicate }) => ({ trialId, isDuplicate, isHouse: trialId === houseTrialId })),
    aspects: panel.attributes.filter(({ position }) => position > 0).map(({ name }) => name),
    seatCount: panel.seatCount,
    primaryKind: primaryKinds.find((kind) => kind === panel.primaryKind) ?? 'all-pairs',
    pair: [panel.primaryTrialAId, panel.primaryTrialBId],
    smallestDifference: panel.smallestDifference,
    notWorseMargin: panel.notWorseMargin,
  }
}
