import 'server-only'
import type { Db, Tx } from './engine/client'
import type { Prisma } from './generated/client'
import { adoptions, newestFirst, findHouseRecipe, findHouseTrials } from './house-recipe'

export type RecipeRow = Prisma.RecipeGetPayload<object>

export async function findRecipe(db: Db | Tx, cafeId: string, id: string): Promise<RecipeRow | null> {
  return db.recipe.findFirst({ where: { cafeId, id } })
}

export async function findRecipeByName(db: Db | Tx, cafeId: string, name: string) {
  return db.recipe.findUnique({ where: { cafeId_name: { cafeId, name } }, select: { id: true } })
}

export async function addRecipe(tx: Tx, recipe: Prisma.RecipeUncheckedCreateInput): Promise<void> {
  await tx.recipe.create({ data: recipe })
}

export async function changeRecipe(
  tx: Tx,
  cafeId: string,
  id: string,
  change: Prisma.RecipeUncheckedUpdateInput,
): Promise<void> {
  await tx.recipe.update({ where: { id, cafeId }, data: change })
}

/** Counts stand in questions of their own: asked for inside another, Prisma counts the whole table of every café and day. */
export async function findRecipeList(db: Db | Tx, cafeId: string) {
  const select = { id: true, name: true, isDemo: true, archivedAt: true } as const
  const [recipes, trials, panels, houses] = await Promise.all([
    db.recipe.findMany({ where: { cafeId }, orderBy: { name: 'asc' }, select }),
    db.trial.groupBy({ by: ['recipeId'], where: { cafeId }, _count: { _all: true } }),
    db.panel.groupBy({ by: ['recipeId'], where: { cafeId }, _count: { _all: true } }),
    findHouseTrials(db, cafeId),
  ])
  const trialCounts = new Map(trials.map(({ recipeId, _count }) => [recipeId, _count._all]))
  const panelCounts = new Map(panels.map(({ recipeId, _count }) => [recipeId, _count._all]))
  return recipes.map((recipe) => ({
    ...recipe,
    trialCount: trialCounts.get(recipe.id) ?? 0,
    panelCount: panelCounts.get(recipe.id) ?? 0,
    house: houses.get(recipe.id) ?? null,
  }))
}

const told = {
  trial: { select: { id: true, number: true, name: true } },
  panel: { select: { id: true, title: true, closedAt: true } },
} as const satisfies Prisma.DecisionInclude

/** Some decisions about a recipe, newest first. */
export async function findDecisions(db: Db | Tx, cafeId: string, recipeId: string, { skip, take }: Stretch) {
  return db.decision.findMany({
    where: { cafeId, recipeId },
    orderBy: [{ at: 'desc' }, { version: 'desc' }, { id: 'desc' }],
    skip,
    take,
    include: told,
  })
}

/** The adoption that made the house recipe; of one trial, the one that last did. By the rule of the house recipe: by version. */
export async function findAdoption(db: Db | Tx, cafeId: string, recipeId: string, trialId?: string) {
  return db.decision.findFirst({
    where: { cafeId, recipeId, ...adoptions, ...(trialId === undefined ? {} : { trialId }) },
    orderBy: newestFirst,
    include: told,
  })
}

export type DecisionRow = Awaited<ReturnType<typeof findDecisions>>[number]

/** Writes a decision; adopting takes the recipe's next version number. */
export async function addDecision(
  tx: Tx,
  decision: Omit<Prisma.DecisionUncheckedCreateInput, 'version'> & {
    readonly cafeId: string
    readonly recipeId: string
  },
): Promise<number | null> {
  const house = await findHouseRecipe(tx, decision.cafeId, decision.recipeId)
  const version = decision.kind === 'adopt' ? (house?.version ?? 0) + 1 : null
  await tx.decision.create({ data: { ...decision, version } })
  return version
}

/** What a list says of a panel, its trials beside it. */
const panelLine = {
  id: true,
  title: true,
  question: true,
  stage: true,
  createdAt: true,
  closedAt: true,
  cups: { select: { trialId: true } },
} as const satisfies Prisma.PanelSelect

/** A stretch of a history, newest first: how many are passed over, how many are wanted. */
export interface Stretch {
  readonly skip: number
  readonly take: number
}

/** Some panels of a recipe, newest first. */
export async function findPanelsOfRecipe(db: Db | Tx, cafeId: string, recipeId: string, { skip, take }: Stretch) {
  const panels = await db.panel.findMany({
    where: { cafeId, recipeId },
    orderBy: [{ createdAt: 'desc' }, { id: 'desc' }],
    skip,
    take,
    select: panelLine,
  })
  const taken = await db.seat.groupBy({
    by: ['panelId'],
    where: { cafeId, takenAt: { not: null }, panelId: { in: panels.map(({ id }) => id) } },
    _count: { _all: true },
  })
  const tasters = new Map(taken.map(({ panelId, _count }) => [panelId, _count._all]))
  return panels.map((panel) => ({ ...panel, tasters: tasters.get(panel.id) ?? 0 }))
}

/** The newest panels that poured a trial. */
export async function findPanelsOfTrial(db: Db | Tx, cafeId: string, trialId: string, howMany: number) {
  const poured = await db.cup.findMany({
    where: { cafeId, trialId, isDuplicate: false },
    orderBy: { panel: { createdAt: 'desc' } },
    take: howMany,
    select: { panel: { select: { id: true, title: true, stage: true } } },
  })
  return poured.map(({ panel }) => panel)
}

/** More names than these are no question one statement may ask. */
const NAMED_AT_ONCE = 900

/** In how many panels each trial of a recipe was poured, and how many panels there are. */
export async function countPanels(db: Db | Tx, cafeId: string, recipeId: string, trialIds: readonly string[]) {
  const [all, poured] = await Promise.all([
    db.panel.count({ where: { cafeId, recipeId } }),
    db.cup.groupBy({
      by: ['trialId'],
      where: { cafeId, trialId: { in: [...trialIds].slice(0, NAMED_AT_ONCE) }, isDuplicate: false },
      _count: { _all: true },
    }),
  ])
  return { all, byTrial: new Map(poured.map(({ trialId, _count }) => [trialId, _count._all])) }
}
