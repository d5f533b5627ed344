import 'server-only'
import type { Db, Tx } from './engine/client'
import type { Prisma } from './generated/client'
import { inSlices } from './slices'

const trialShape = {
  id: true,
  number: true,
  name: true,
  frozenAt: true,
  archivedAt: true,
  createdAt: true,
  costLevelId: true,
  parentId: true,
  recipe: { select: { id: true, name: true, archivedAt: true } },
} as const satisfies Prisma.TrialSelect

/** A trial in whose glass something is, or may have been while nobody said at which cost level it was made. */
export type HoldingTrial = Prisma.TrialGetPayload<{ select: typeof trialShape }>

/**
 * Of these, the drafts in which it is where the trial they were made from has something else: those into which it was taken
 * instead of that.
 */
export function takenInstead(holding: readonly HoldingTrial[]): readonly HoldingTrial[] {
  const ids = new Set(holding.map(({ id }) => id))
  return holding.filter(
    ({ frozenAt, archivedAt, parentId }) =>
      frozenAt === null && archivedAt === null && parentId !== null && !ids.has(parentId),
  )
}

/** The trials that hold an ingredient, through batches and preparations too, each once, put aside or not; newest first. */
export async function findTrialsHolding(db: Db | Tx, cafeId: string, ingredientId: string): Promise<HoldingTrial[]> {
  const { batchIds, preparationIds } = await findUpwards(db, cafeId, ingredientId)
  const parts = await Promise.all([
    findOnLines(db, cafeId, { ingredientId }),
    inSlices(batchIds, (some) => findOnLines(db, cafeId, { batchId: { in: some } })),
    inSlices(preparationIds, (some) => findOnLines(db, cafeId, { preparationId: { in: some } })),
  ])
  const found = new Map(parts.flat().map((trial) => [trial.id, trial]))
  return [...found.values()].toSorted((a, b) => b.createdAt.getTime() - a.createdAt.getTime())
}

type Part =
  { ingredientId: string } | { batchId: Prisma.StringNullableFilter } | { preparationId: Prisma.StringNullableFilter }

/** Asked from the lines, which have an index for it. The level a trial was made at decides which of them was poured. */
async function findOnLines(db: Db | Tx, cafeId: string, part: Part): Promise<HoldingTrial[]> {
  const own = await db.trialLine.findMany({
    where: { cafeId, ...part },
    select: { trial: { select: trialShape }, alternatives: { select: { costLevelId: true } } },
  })
  const instead = await db.lineAlternative.findMany({
    where: { cafeId, ...part },
    select: { costLevelId: true, line: { select: { trial: { select: trialShape } } } },
  })
  return [
    ...own
      .filter(({ trial, alternatives }) => !alternatives.some(({ costLevelId }) => costLevelId === trial.costLevelId))
      .map(({ trial }) => trial),
    ...instead
      .filter(({ costLevelId, line }) => line.trial.costLevelId === null || line.trial.costLevelId === costLevelId)
      .map(({ line }) => line.trial),
  ]
}

/** Batches that hold it, whichever storey, and preparations whose present or former formula does. */
async function findUpwards(db: Db | Tx, cafeId: string, ingredientId: string) {
  const inBatches = { select: { batchId: true, batch: { select: { preparationId: true } } } } as const
  const batches = new Set<string>()
  const preparations = new Set<string>()
  let inputs = await db.batchInput.findMany({ where: { cafeId, ingredientId }, ...inBatches })
  while (inputs.length > 0) {
    const fresh = inputs.filter(({ batchId }) => !batches.has(batchId))
    for (const { batchId, batch } of fresh) {
      batches.add(batchId)
      preparations.add(batch.preparationId)
    }
    inputs = await inSlices(
      fresh.map(({ batchId }) => batchId),
      (some) => db.batchInput.findMany({ where: { cafeId, inputBatchId: { in: some } }, ...inBatches }),
    )
  }
  const ofFormula = { select: { formula: { select: { preparationId: true } } } } as const
  const named = await db.formulaInput.findMany({ where: { cafeId, ingredientId }, ...ofFormula })
  for (const { formula } of named) preparations.add(formula.preparationId)
  let open = [...preparations]
  while (open.length > 0) {
    const holding = await inSlices(open, (some) =>
      db.formulaInput.findMany({ where: { cafeId, preparationId: { in: some } }, ...ofFormula }),
    )
    open = [...new Set(holding.map(({ formula }) => formula.preparationId))].filter((id) => !preparations.has(id))
    for (const id of open) preparations.add(id)
  }
  return { batchIds: [...batches], preparationIds: [...preparations] }
}
