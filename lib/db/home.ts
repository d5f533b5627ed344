import 'server-only'
import type { Db, Tx } from './client'

/** The present house recipes of a café with what is directly or through a batch in them. */
export async function findHouseRecipes(db: Db | Tx, cafeId: string) {
  const adoptions = await db.decision.findMany({
    where: { cafeId, kind: 'adopt', recipe: { archivedAt: null } },
    orderBy: { version: 'desc' },
    distinct: ['recipeId'],
    select: {
      version: true,
      at: true,
      recipe: { select: { id: true, name: true } },
      trial: { select: { id: true, number: true, name: true } },
    },
  })
  return adoptions.flatMap(({ version, at, recipe, trial }) =>
    trial && version ? [{ version, at, recipe, trial }] : [],
  )
}

export type HouseRecipeRow = Awaited<ReturnType<typeof findHouseRecipes>>[number]

/** Ingredients whose price changed after a day, out of a few. */
export async function findPricesSince(db: Db | Tx, cafeId: string, ingredientIds: readonly string[], after: Date) {
  return db.ingredientPrice.findMany({
    where: { cafeId, ingredientId: { in: [...ingredientIds] }, createdAt: { gt: after } },
    orderBy: { createdAt: 'desc' },
    distinct: ['ingredientId'],
    select: { createdAt: true, ingredient: { select: { id: true, name: true } } },
  })
}
