import 'server-only'
import { costPerGram } from '@/lib/drink/cost'

interface PriceRow {
  readonly packMg: number
  readonly priceMinor: number
  readonly usableBp: number
}

/**
 * What a usable gram costs by a price as it is kept, in the café's currency; null when the row cannot be a price, such as
 * one of a pack of nothing. Then the price is not known: no page stops for one bad row.
 */
export function pricePerGram({ packMg, priceMinor, usableBp }: PriceRow, currencyDigits: number): number | null {
  if (!(packMg > 0 && priceMinor >= 0 && usableBp > 0 && usableBp <= 10_000)) return null
  return costPerGram(priceMinor / 10 ** currencyDigits, packMg / 1000, usableBp / 10_000)
}
