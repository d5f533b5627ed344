import 'server-only'
import type { Db, Tx } from './client'
import type { Prisma } from './generated/client'
import { priceOn } from './prices'
import { inSlices } from './slices'

const whole = (day: string) =>
  ({
    allergens: { select: { allergen: true, state: true } },
    prices: priceOn(day),
  }) as const satisfies Prisma.IngredientInclude

/** An ingredient with what its label says and the price of a day. */
export type IngredientRow = Prisma.IngredientGetPayload<{ include: ReturnType<typeof whole> }>

export async function findIngredients(db: Db | Tx, cafeId: string, day: string): Promise<IngredientRow[]> {
  return db.ingredient.findMany({ where: { cafeId }, include: whole(day), orderBy: { name: 'asc' } })
}

export async function findIngredientsById(
  db: Db | Tx,
  cafeId: string,
  day: string,
  ids: readonly string[],
): Promise<IngredientRow[]> {
  return inSlices(ids, (some) => db.ingredient.findMany({ where: { cafeId, id: { in: some } }, include: whole(day) }))
}

export async function findIngredientByName(db: Db | Tx, cafeId: string, name: string) {
  return db.ingredient.findUnique({ where: { cafeId_name: { cafeId, name } }, select: { id: true, kind: true } })
}

export async function addIngredient(tx: Tx, ingredient: Prisma.IngredientUncheckedCreateInput): Promise<void> {
  await tx.ingredient.create({ data: ingredient })
}

export async function addAllergenMarks(
  tx: Tx,
  marks: readonly Prisma.IngredientAllergenCreateManyInput[],
): Promise<void> {
  await tx.ingredientAllergen.createMany({ data: [...marks] })
}

/** Somebody read the whole label: from now on an allergen without a mark is one it does not name. */
export async function setLabelRead(
  tx: Tx,
  cafeId: string,
  ids: readonly string[],
  at: Date,
  byId: string,
): Promise<void> {
  await tx.ingredient.updateMany({
    where: { cafeId, id: { in: [...ids] } },
    data: { labelReadAt: at, labelReadById: byId },
  })
}
