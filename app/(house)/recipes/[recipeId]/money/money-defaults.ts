import type { Currency } from '@/lib/forms/fields'
import { moneyField, PERCENT, printed, temperatureField } from '@/lib/forms/number-fields'
import type { readRecipe } from '@/lib/tasks/recipe/read-recipe'

type Recipe = NonNullable<Awaited<ReturnType<typeof readRecipe>>>['recipe']

/** What a recipe sells for, as the form fields hold it. */
export function moneyDefaults(recipe: Recipe, { currencyDigits }: Currency) {
  const minor = (value: number | null) =>
    printed(value === null ? null : value / 10 ** currencyDigits, moneyField(currencyDigits))
  const share = (bp: number | null) => printed(bp === null ? null : bp / 100, PERCENT)
  return {
    price: minor(recipe.priceMinor),
    tax: share(recipe.taxBp),
    targetCost: share(recipe.targetCostBp),
    waste: share(recipe.wasteBp),
    packaging: minor(recipe.packMinor),
    fixed: minor(recipe.fixedMinor),
    room: printed(recipe.roomDeciC === null ? null : recipe.roomDeciC / 10, temperatureField(-10, 50)),
  }
}
