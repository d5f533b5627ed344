import type { PanelReading } from '@/lib/tasks/plan/panel-reading'
import { counted } from '../panel-words'

/** How much to make of each cup, and how much one taster drinks. */
export function pourAmounts({ plan, cups, sampleMl, mlPerCup, mlPerTaster, portionsPerCup }: PanelReading): string {
  const each = plan.cupsPerTaster === null ? '' : ` Each taster gets ${plan.cupsPerTaster} of the ${cups.length} cups.`
  if (sampleMl === null || mlPerCup === null) {
    return `${counted(plan.seatCount, 'seat')}.${each} No amount per cup was planned: weigh the same into every cup.`
  }
  return (
    `Make ${mlPerCup} ml of each cup: ${counted(portionsPerCup, 'portion')} × ${sampleMl} ml, and 15 % for spills and ` +
    `spare portions.${each} One taster drinks up to ${mlPerTaster} ml in all.`
  )
}
