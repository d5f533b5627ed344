import 'server-only'
import { roomOfDesign, type SetDesign } from '@/lib/panel/kinds/kinds'
import { extendOrders, type OrderPlan } from '@/lib/panel/order'

/** What stands on the trays of new seats. */
export interface NewTrays {
  /** numbers of the design, in the order of tasting */
  readonly orders: readonly (readonly number[])[]
  /** so many are answered together, tray after tray; null: each by itself */
  readonly perSet: number | null
}

/**
 * Deals the trays of new seats, balanced with those there are.
 *
 * @param asks   what is asked about sets; undefined where each cup is answered by itself
 * @param dealt  trays of the seats there are
 * @param plan   `first` is the number of the cup that the plan names first, where it names one
 */
export function newTrays(
  asks: SetDesign | undefined,
  dealt: readonly (readonly number[])[],
  howMany: number,
  { first, ...plan }: OrderPlan & { readonly first: number | null },
): NewTrays {
  const trays = asks && roomOfDesign(asks).trays
  if (trays) {
    const orders = trays.deal(asks, dealt, howMany, { seed: plan.seed, first: first ?? 1 })
    return { orders, perSet: trays.perSet(asks) }
  }
  const orders = extendOrders(dealt, howMany, plan)
  return { orders, perSet: asks ? (orders[0]?.length ?? 0) : null }
}
