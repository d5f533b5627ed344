import 'server-only'
import { requireCafe } from '@/lib/db/cafes'
import type { Tx } from '@/lib/db/engine/client'
import type { Currency } from '@/lib/forms/fields'
import type { Actor } from '../world'

/** Does the café still count in the money an amount was read in? Else 350 cents would be kept as 350 yen. */
export async function stillCountsIn(tx: Tx, { cafeId, cafe }: Actor & { readonly cafe: Currency }): Promise<boolean> {
  const { currency, currencyDigits } = await requireCafe(tx, cafeId)
  return currency === cafe.currency && currencyDigits === cafe.currencyDigits
}
