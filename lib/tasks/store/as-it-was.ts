import 'server-only'
import type { IngredientRow } from '@/lib/db/ingredients'
import type { UpstreamChangeRow } from '@/lib/db/upstream-changes'
import { labelThen, priceThen, type LabelThen, type PriceThen } from './upstream'

/** The row of an ingredient with the price and the marks of before the first change that nobody has looked at. */
export function asItWas(row: IngredientRow, rows: readonly UpstreamChangeRow[], currencyDigits: number): IngredientRow {
  const priced = rows.find(({ what }) => what === 'price' || what === 'pack')
  const labelled = rows.find(({ what }) => what === 'label')
  const label = labelled ? labelThen(labelled.before) : null
  return {
    ...row,
    ...(priced ? { prices: pricesThen(row, priceThen(priced.before), currencyDigits) } : {}),
    ...(label ? { allergens: marksThen(label), labelReadAt: label.read ? row.createdAt : null } : {}),
  }
}

function pricesThen(row: IngredientRow, then: PriceThen | null, currencyDigits: number): IngredientRow['prices'] {
  if (then === null) return []
  const blank = { note: null, createdById: null, struckAt: null, struckById: null, since: row.createdAt, day: '' }
  return [
    {
      ...blank,
      id: '',
      cafeId: row.cafeId,
      ingredientId: row.id,
      createdAt: row.createdAt,
      packMg: Math.round(then.packGrams * 1000),
      packTyped: then.packTyped,
      packUnit: then.packUnit,
      priceMinor: then.price * 10 ** currencyDigits,
      usableBp: Math.round(then.usable * 10_000),
    },
  ]
}

const marksThen = ({ allergens }: LabelThen) =>
  Object.entries(allergens).map(([allergen, state]) => ({ allergen, state }))
