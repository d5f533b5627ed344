import 'server-only'
import type { Db, Tx } from './client'
import type { Prisma } from './generated/client'
import { newestFirst } from './prices'

const whole = {
  allergens: { select: { allergen: true, state: true } },
  prices: { orderBy: newestFirst },
} satisfies Prisma.IngredientInclude

/** An ingredient with every price it ever had, newest first. */
export type IngredientCardRow = Prisma.IngredientGetPayload<{ include: typeof whole }>

export async function findIngredient(db: Db | Tx, cafeId: string, id: string): Promise<IngredientCardRow | null> {
  return db.ingredient.findFirst({ where: { cafeId, id }, include: whole })
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

const trialShape = { id: true, number: true, name: true, recipe: { select: { name: true } } } as const
const batchShape = { id: true, number: true, preparation: { select: { id: true, name: true } } } as const

/** Every trial and batch an ingredient stands in, as a line, an input or an alternative. */
export async function findUsesOfIngredient(db: Db | Tx, cafeId: string, ingredientId: string) {
  const trials = await db.trial.findMany({
    where: {
      cafeId,
      lines: { some: { OR: [{ ingredientId }, { alternatives: { some: { ingredientId } } }] } },
    },
    select: trialShape,
    orderBy: { createdAt: 'desc' },
  })
  const batches = await db.preparationBatch.findMany({
    where: { cafeId, inputs: { some: { ingredientId } } },
    select: batchShape,
    orderBy: { createdAt: 'desc' },
  })
  return { trials, batches }
}

/** Every trial and batch a batch stands in. */
export async function findUsesOfBatch(db: Db | Tx, cafeId: string, batchId: string) {
  const trials = await db.trial.findMany({
    where: { cafeId, lines: { some: { OR: [{ batchId }, { alternatives: { some: { batchId } } }] } } },
    select: trialShape,
    orderBy: { createdAt: 'desc' },
  })
  const batches = await db.preparationBatch.findMany({
    where: { cafeId, inputs: { some: { inputBatchId: batchId } } },
    select: batchShape,
    orderBy: { createdAt: 'desc' },
  })
  return { trials, batches }
}

export async function findUsesOfVessel(db: Db | Tx, cafeId: string, vesselId: string) {
  return db.trial.findMany({ where: { cafeId, vesselId }, select: trialShape, orderBy: { createdAt: 'desc' } })
}

export type Uses = Awaited<ReturnType<typeof findUsesOfBatch>>
