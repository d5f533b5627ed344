import { demand } from '@/lib/base/demand'

/**
 * What does a usable gram cost?
 *
 *     cost per g = price / (pack grams · yield)
 *
 * @param price          of the pack, in the café's currency, 0 or more
 * @param packGrams      content, above 0; ml through the density first
 * @param yieldFraction  usable out / bought in, above 0 to 1
 * @throws RangeError  a negative price, a price without a pack, a yield outside its range
 *
 * Source   common practice of costing, no source
 * Checked  test/reference/cost-worked-example.test.ts
 */
export function costPerGram(price: number, packGrams: number, yieldFraction = 1): number {
  demand(price >= 0, `price must not be negative, got ${price}`)
  demand(packGrams > 0, `a price needs a pack above 0 g, got ${packGrams}`)
  demand(yieldFraction > 0 && yieldFraction <= 1, `usable share must lie above 0 to 1, got ${yieldFraction}`)
  return price / (packGrams * yieldFraction)
}

/**
 * How many packs must be opened?
 *
 *     n = ⌈grams / (pack grams · yield)⌉
 *
 * @param grams          needed, usable, 0 or more
 * @param packGrams      content, above 0
 * @param yieldFraction  usable out / bought in, above 0 to 1
 * @throws RangeError  a negative need, no pack, a yield outside its range
 *
 * Source   arithmetic
 * Checked  test/unit/drink/cost.test.ts
 */
export function packsFor(grams: number, packGrams: number, yieldFraction = 1): number {
  demand(grams >= 0, `what is needed must not be negative, got ${grams}`)
  demand(packGrams > 0, `a pack holds more than 0 g, got ${packGrams}`)
  demand(yieldFraction > 0 && yieldFraction <= 1, `usable share must lie above 0 to 1, got ${yieldFraction}`)
  // ten glasses of 60 g are one pack of 600 g, and not a hair more
  return Math.ceil(grams / (packGrams * yieldFraction) - 1e-9)
}

/**
 * What does the glass cost?
 *
 *     cost = Σ lines · (1 + waste) + packaging
 *
 * @param ingredients    Σ lines, 0 or more
 * @param wasteFraction  0.03 = 3 %
 *
 * Source   common practice of costing, no source
 * Checked  test/reference/cost-worked-example.test.ts
 */
export function glassCost(ingredients: number, wasteFraction: number, packaging: number): number {
  demand(ingredients >= 0 && wasteFraction >= 0 && packaging >= 0, `costs must not be negative, got ${ingredients}`)
  return ingredients * (1 + wasteFraction) + packaging
}

/** What is left of the menu price when the tax is paid? net = menu / (1 + tax). @param taxFraction 0.12 = 12 % */
export function netOfTax(menuPrice: number, taxFraction: number): number {
  demand(menuPrice >= 0 && taxFraction >= 0, `price and tax must not be negative, got ${menuPrice} and ${taxFraction}`)
  return menuPrice / (1 + taxFraction)
}

/** What must the net price be for a target share? net = cost / share. @throws RangeError  a share outside 0–1 */
export function priceForShare(cost: number, share: number): number {
  demand(share > 0 && share <= 1, `target share must lie above 0 to 1, got ${share}`)
  return cost / share
}

/**
 * How many glasses pay the fixed cost?
 *
 *     n = ⌈fixed / contribution⌉,   contribution = net price − cost
 *
 * @returns  whole glasses, or null when each glass loses money
 *
 * Source   common practice of costing, no source
 * Checked  test/reference/cost-worked-example.test.ts
 */
export function breakEvenGlasses(fixedCost: number, contribution: number): number | null {
  demand(fixedCost >= 0, `fixed cost must not be negative, got ${fixedCost}`)
  return contribution > 0 ? Math.ceil(fixedCost / contribution) : null
}
