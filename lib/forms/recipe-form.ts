import * as z from 'zod'
import { celsius, countFromZero, note, words } from './fields'

export const RecipeForm = z.object({ name: words('Name the drink.', 80), note: note() })
export type RecipeSent = z.infer<typeof RecipeForm>

const price = () => countFromZero('Type a price.', 1_000_000, 'This is more than a million.').optional()
const share = () => countFromZero('Type a percentage.', 100, 'This is more than 100 %.').optional()

/** What the drink sells for and what surrounds it. */
export const RecipeMoneyForm = z.object({
  price: price(),
  tax: share(),
  targetCost: share(),
  waste: share(),
  packaging: price(),
  fixed: price(),
  room: celsius(-10, 50).optional(),
})
export type RecipeMoney = z.infer<typeof RecipeMoneyForm>

export const HouseRecipeForm = z.object({
  trialId: z.string({ error: 'Choose a trial.' }),
  reason: words('Say why: someone will ask in a year.', 1000),
})
