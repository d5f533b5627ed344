import 'server-only'
import type { Db, Tx } from './engine/client'

/** Every column that holds minor units of the café's currency. A test holds it to the schema. */
export const MONEY_COLUMNS = {
  ingredientPrice: ['priceMinor'],
  vessel: ['packMinor'],
  recipe: ['priceMinor', 'packMinor', 'fixedMinor'],
  sizePrice: ['priceMinor'],
} as const

export interface MoneyFigure {
  /** of what it is the price: an ingredient, a vessel, a recipe, a recipe in a vessel */
  readonly of: string
  readonly minor: number
  /** the id of a price that was struck out; null for what counts */
  readonly struckPriceId: string | null
  readonly note: string | null
}

/** Every amount of money a café keeps. */
export async function findMoneyFigures(db: Db | Tx, cafeId: string): Promise<MoneyFigure[]> {
  const prices = await db.ingredientPrice.findMany({
    where: { cafeId },
    orderBy: [{ createdAt: 'asc' }, { id: 'asc' }],
    select: { id: true, priceMinor: true, struckAt: true, note: true, ingredient: { select: { name: true } } },
  })
  const vessels = await db.vessel.findMany({
    where: { cafeId },
    orderBy: { name: 'asc' },
    select: { name: true, packMinor: true },
  })
  const recipes = await db.recipe.findMany({
    where: { cafeId },
    orderBy: { name: 'asc' },
    select: { name: true, priceMinor: true, packMinor: true, fixedMinor: true },
  })
  const sizes = await db.sizePrice.findMany({
    where: { cafeId },
    orderBy: { id: 'asc' },
    select: { priceMinor: true, recipe: { select: { name: true } }, vessel: { select: { name: true } } },
  })
  const counted = (of: string, minor: number | null): MoneyFigure[] =>
    minor === null ? [] : [{ of, minor, struckPriceId: null, note: null }]
  return [
    ...prices.map(({ id, priceMinor, struckAt, note, ingredient }) => ({
      of: ingredient.name,
      minor: priceMinor,
      struckPriceId: struckAt ? id : null,
      note,
    })),
    ...vessels.flatMap(({ name, packMinor }) => counted(name, packMinor)),
    ...recipes.flatMap((recipe) => MONEY_COLUMNS.recipe.flatMap((column) => counted(recipe.name, recipe[column]))),
    ...sizes.flatMap(({ priceMinor, recipe, vessel }) => counted(`${recipe.name}, ${vessel.name}`, priceMinor)),
  ]
}

/** Multiplies, or divides, every amount of a café: what each reads as stays when the currency has other decimals. */
export async function rescaleMoney(tx: Tx, cafeId: string, by: { multiply: number } | { divide: number }) {
  await tx.ingredientPrice.updateMany({ where: { cafeId }, data: { priceMinor: by } })
  await tx.vessel.updateMany({ where: { cafeId }, data: { packMinor: by } })
  await tx.recipe.updateMany({ where: { cafeId }, data: { priceMinor: by, packMinor: by, fixedMinor: by } })
  await tx.sizePrice.updateMany({ where: { cafeId }, data: { priceMinor: by } })
}

export async function setPriceFigure(tx: Tx, cafeId: string, id: string, priceMinor: number, note: string) {
  await tx.ingredientPrice.update({ where: { id, cafeId }, data: { priceMinor, note } })
}
