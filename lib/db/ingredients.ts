import 'server-only'
import type { Db, Tx } from './engine/client'
import type { Prisma } from './generated/client'
import { priceOn, newestFirst } from './prices'
import { inSlices } from './slices'

const whole = (day: string) =>
  ({
    allergens: { select: { allergen: true, state: true } },
    prices: priceOn(day),
    openedPacks: { where: { doneAt: null, discardAt: { not: null } }, select: { mark: true, discardAt: true } },
  }) as const satisfies Prisma.IngredientInclude

/** An ingredient with what its label says and the price of a day. */
export type IngredientRow = Prisma.IngredientGetPayload<{ include: ReturnType<typeof whole> }>

/** All of a café, by name. */
export async function findIngredients(db: Db | Tx, cafeId: string, day: string): Promise<IngredientRow[]> {
  const ids = await db.ingredient.findMany({ where: { cafeId }, orderBy: { name: 'asc' }, select: { id: true } })
  const rows = await findIngredientsById(
    db,
    cafeId,
    day,
    ids.map(({ id }) => id),
  )
  const placeOf = new Map(ids.map(({ id }, place) => [id, place]))
  return rows.toSorted((a, b) => (placeOf.get(a.id) ?? 0) - (placeOf.get(b.id) ?? 0))
}

/** The first water by name that is on the shelf, to keep a balance with; null where there is none. */
export async function findWaterId(db: Db | Tx, cafeId: string): Promise<string | null> {
  const water = await db.ingredient.findFirst({
    where: { cafeId, kind: 'water', form: 'liquid', archivedAt: null },
    orderBy: { name: 'asc' },
    select: { id: true },
  })
  return water?.id ?? null
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

const wholeCard = {
  allergens: { select: { allergen: true, state: true } },
  prices: { orderBy: newestFirst },
} satisfies Prisma.IngredientInclude

/** An ingredient with every price it ever had, newest first. */
export type IngredientCardRow = Prisma.IngredientGetPayload<{ include: typeof wholeCard }>

export async function findIngredient(db: Db | Tx, cafeId: string, id: string): Promise<IngredientCardRow | null> {
  return db.ingredient.findFirst({ where: { cafeId, id }, include: wholeCard })
}

export async function changeIngredient(
  tx: Tx,
  cafeId: string,
  id: string,
  change: Prisma.IngredientUncheckedUpdateInput,
): Promise<void> {
  await tx.ingredient.update({ where: { id, cafeId }, data: change })
}

export async function clearAllergenMarks(tx: Tx, cafeId: string, ingredientId: string): Promise<void> {
  await tx.ingredientAllergen.deleteMany({ where: { cafeId, ingredientId } })
}
