import 'server-only'
import type { Db, Tx } from './engine/client'
import type { Prisma } from './generated/client'

const trialShape = { id: true, number: true, name: true, recipe: { select: { name: true } } } as const

const batchShape = { id: true, number: true, preparation: { select: { id: true, name: true } } } as const

/** The newest trials and batches that something stands in, and how many more there are: water stands in all of years. */
export interface Uses {
  readonly trials: readonly Prisma.TrialGetPayload<{ select: typeof trialShape }>[]
  readonly batches: readonly Prisma.PreparationBatchGetPayload<{ select: typeof batchShape }>[]
  readonly more: number
}

const shown = 50

// Asked from the lines and inputs, which have an index for it: asked as "trials some of whose lines", each trial and batch of
// the café goes once through all of them.

/** By the time they were made, newest first, each once. */
const unique = (ids: readonly string[]) => [...new Set(ids)]

async function findUses(
  db: Db | Tx,
  cafeId: string,
  trialIds: readonly string[],
  batchIds: readonly string[],
): Promise<Uses> {
  const some = { trials: unique(trialIds), batches: unique(batchIds) }
  const named = (ids: readonly string[]) => ({ cafeId, id: { in: ids.slice(0, shown) } })
  const newest = { orderBy: { createdAt: 'desc' } } as const
  const trials = await db.trial.findMany({ where: named(some.trials), select: trialShape, ...newest })
  const batches = await db.preparationBatch.findMany({ where: named(some.batches), select: batchShape, ...newest })
  return { trials, batches, more: some.trials.length + some.batches.length - trials.length - batches.length }
}

type What = { readonly ingredientId: string } | { readonly batchId: string }

/** Trials with this on a line or for a cost level, newest first. */
async function findTrialsWith(db: Db | Tx, cafeId: string, what: What): Promise<string[]> {
  const trial = { select: { id: true, createdAt: true } } as const
  // a draft that names the preparation pours another batch tomorrow
  const isPoured = { OR: [{ preparationId: null }, { trial: { frozenAt: { not: null } } }] }
  const lines = await db.trialLine.findMany({ where: { cafeId, ...what, ...isPoured }, select: { trial } })
  const instead = await db.lineAlternative.findMany({
    where: { cafeId, ...what, OR: [{ preparationId: null }, { line: { trial: { frozenAt: { not: null } } } }] },
    select: { line: { select: { trial } } },
  })
  return [...lines, ...instead.map(({ line }) => line)]
    .map((line) => line.trial)
    .toSorted((a, b) => b.createdAt.getTime() - a.createdAt.getTime())
    .map(({ id }) => id)
}

/** Batches with this among their inputs, newest first. */
async function findBatchesWith(
  db: Db | Tx,
  cafeId: string,
  what: { readonly ingredientId: string } | { readonly inputBatchId: string },
): Promise<string[]> {
  const inputs = await db.batchInput.findMany({
    where: { cafeId, ...what },
    orderBy: { batch: { createdAt: 'desc' } },
    select: { batchId: true },
  })
  return inputs.map(({ batchId }) => batchId)
}

/** Where an ingredient stands, as a line, an input or an alternative. */
export async function findUsesOfIngredient(db: Db | Tx, cafeId: string, ingredientId: string): Promise<Uses> {
  const trials = await findTrialsWith(db, cafeId, { ingredientId })
  return findUses(db, cafeId, trials, await findBatchesWith(db, cafeId, { ingredientId }))
}

/** Where a batch stands. */
export async function findUsesOfBatch(db: Db | Tx, cafeId: string, batchId: string): Promise<Uses> {
  const trials = await findTrialsWith(db, cafeId, { batchId })
  return findUses(db, cafeId, trials, await findBatchesWith(db, cafeId, { inputBatchId: batchId }))
}

export async function findUsesOfVessel(db: Db | Tx, cafeId: string, vesselId: string): Promise<Uses> {
  const trials = await db.trial.findMany({
    where: { cafeId, vesselId },
    orderBy: { createdAt: 'desc' },
    select: { id: true },
  })
  return findUses(
    db,
    cafeId,
    trials.map(({ id }) => id),
    [],
  )
}
