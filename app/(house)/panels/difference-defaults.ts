import { usualDifference } from '@/lib/forms/difference-form'
import type { PanelReading } from '@/lib/tasks/plan/panel-reading'

/** What a draft says of “Can these tasters tell them apart?”, as it was typed; as a new plan has it where it asks something else. */
export function differenceAsTyped({ asks, pair }: PanelReading['plan']) {
  if (asks?.kind !== 'difference') return usualDifference
  const { aim, protocol, property, each, share, mask } = asks
  return {
    aim,
    asks: property === null ? 'any' : 'named',
    property: property ?? '',
    more: property === null ? '' : (pair[0] ?? ''),
    protocol,
    each: String(each),
    share: String(share),
    mask: mask ?? '',
  }
}
