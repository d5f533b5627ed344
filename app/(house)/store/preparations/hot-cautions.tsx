import { localRules, Notice } from '@/app/ui/notice'

export const HOT_SYRUP =
  'Hot syrup sticks and burns: a deep pot, no children near it; on a burn, cool water for twenty minutes.'

export const HOT_LIQUID =
  'Hot liquid scalds: a steady pot, no children near it; on a burn, cool water for twenty minutes.'

/** Said where something is infused, which is often done hot and left to stand. */
export function HotInfusion() {
  return (
    <Notice look="caution">
      {HOT_LIQUID} What was infused spoils: cool it at once, keep it at 5 °C or below. {localRules}
    </Notice>
  )
}

/** Said where syrup is cooked. */
export function HotSyrup() {
  return (
    <Notice look="caution">
      {HOT_SYRUP} {localRules}
    </Notice>
  )
}
