import type { PanelReading } from '@/lib/tasks/panel-reading'
import { counted } from '../panel-words'

/** How much to make of each cup, and how much one taster drinks. */
export function pourAmounts({ plan, sampleMl, mlPerCup, cups }: PanelReading): string {
  if (sampleMl === null || mlPerCup === null) {
    return `${counted(plan.seatCount, 'seat')}; no amount per cup was planned: weigh the same into every cup.`
  }
  return (
    `Make ${mlPerCup} ml of each cup: ${counted(plan.seatCount, 'seat')} × ${sampleMl} ml, and 15 % for spills and spare ` +
    `portions. One taster drinks up to ${cups.length * sampleMl} ml in all.`
  )
}
