import * as z from 'zod'
import { celsius, note, percentage, price, sameCurrency, words, type Currency } from './fields'

export const RecipeForm = z.object({ name: words('Name the drink.', 80), note: note() })
export type RecipeSent = z.infer<typeof RecipeForm>

/** A new recipe from another, with these of its trials. */
export const CopyRecipeForm = z.object({
  name: words('Name the new drink.', 80),
  trials: z.array(z.string()).max(200, 'These are too many at once.').default([]),
})
export type RecipeCopy = z.infer<typeof CopyRecipeForm>

/** What the drink sells for and what surrounds it, in the café's currency. */
export const recipeMoneyForm = (cafe: Currency) =>
  z
    .object({
      currency: z.string().optional(),
      price: price('Type a price.', cafe).optional(),
      tax: percentage().optional(),
      targetCost: percentage().optional(),
      waste: percentage().optional(),
      packaging: price('Type a price.', cafe).optional(),
      fixed: price('Type a price.', cafe).optional(),
      room: celsius(-10, 50).optional(),
    })
    .superRefine(sameCurrency(cafe, 'price'))
export type RecipeMoney = z.infer<ReturnType<typeof recipeMoneyForm>>

/** What one size of it sells for; left empty, it has no price. */
export const sizePriceForm = (cafe: Currency) =>
  z
    .object({ currency: z.string().optional(), price: price('Type a price.', cafe).optional() })
    .superRefine(sameCurrency(cafe, 'price'))
export type SizePriceSent = z.infer<ReturnType<typeof sizePriceForm>>

export const HouseRecipeForm = z.object({
  trialId: z.string({ error: 'Choose a trial.' }),
  reason: words('Say why: someone will ask in a year.', 1000),
})
