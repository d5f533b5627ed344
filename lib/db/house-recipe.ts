import 'server-only'
import type { Db, Tx } from './engine/client'
import type { Prisma } from './generated/client'

/**
 * The one rule for which trial is the house recipe: of a recipe's adoptions, the one with the highest version. Versions are given
 * in the order of the acts; a clock can be set back, so the time of an adoption decides nothing.
 */
export const adoptions = { kind: 'adopt', version: { not: null } } as const satisfies Prisma.DecisionWhereInput
export const newestFirst = { version: 'desc' } as const satisfies Prisma.DecisionOrderByWithRelationInput

/** The present house recipe of every recipe that has one, by recipe. */
export async function findHouseTrials(db: Db | Tx, cafeId: string) {
  const found = await db.decision.findMany({
    where: { cafeId, ...adoptions },
    orderBy: newestFirst,
    distinct: ['recipeId'],
    select: {
      recipeId: true,
      version: true,
      at: true,
      trial: { select: { id: true, number: true, name: true } },
    },
  })
  return new Map(found.map(({ recipeId, ...house }) => [recipeId, house]))
}

/** The adopted trial, or null while there is none. */
export async function findHouseRecipe(db: Db | Tx, cafeId: string, recipeId: string) {
  const decision = await db.decision.findFirst({
    where: { cafeId, recipeId, ...adoptions },
    orderBy: newestFirst,
    select: { id: true, version: true, at: true, trialId: true },
  })
  return decision?.trialId && decision.version
    ? { decisionId: decision.id, version: decision.version, at: decision.at, trialId: decision.trialId }
    : null
}

/** The present house recipes of a café, of recipes that were not put aside. */
export async function findHouseRecipes(db: Db | Tx, cafeId: string) {
  const found = await db.decision.findMany({
    where: { cafeId, ...adoptions, recipe: { archivedAt: null } },
    orderBy: newestFirst,
    distinct: ['recipeId'],
    select: {
      version: true,
      at: true,
      recipe: { select: { id: true, name: true } },
      trial: { select: { id: true, number: true, name: true } },
    },
  })
  return found.flatMap(({ version, at, recipe, trial }) => (trial && version ? [{ version, at, recipe, trial }] : []))
}

export type HouseRecipeRow = Awaited<ReturnType<typeof findHouseRecipes>>[number]
