import type { Currency } from '@/lib/forms/fields'
import { moneyField, printed } from '@/lib/forms/number-fields'

/** What a size sells for, as its form holds it. */
export function sizePriceDefaults(priceMinor: number | null, { currencyDigits }: Currency) {
  const price = priceMinor === null ? null : priceMinor / 10 ** currencyDigits
  return { price: printed(price, moneyField(currencyDigits)) }
}
