import 'server-only'
import type { Db, Tx } from './engine/client'

export interface ContainedIngredient {
  readonly id: string
  readonly name: string
  /** null: nobody has read its label for allergens */
  readonly labelReadAt: Date | null
}

/** All that a trial is made of, down through its preparations. */
export interface TrialContents {
  readonly ingredients: readonly ContainedIngredient[]
  readonly batchIds: readonly string[]
}

const ingredientShape = { id: true, name: true, labelReadAt: true } as const

interface Parts {
  readonly ingredients: ContainedIngredient[]
  readonly batchIds: string[]
}

interface Part {
  readonly ingredient: ContainedIngredient | null
  readonly batchId: string | null
}

/**
 * As each trial was made; of a preparation that a sheet names, the batch it was written with or poured from. One query per storey of preparations,
 * however many trials: a syrup made of a syrup is two storeys.
 */
export async function findTrialContents(
  db: Db | Tx,
  cafeId: string,
  trialIds: readonly string[],
): Promise<ReadonlyMap<string, TrialContents>> {
  const direct = await findLines(db, cafeId, trialIds)
  const inputsOf = await findBatchTree(
    db,
    cafeId,
    [...direct.values()].flatMap((parts) => parts.batchIds),
  )
  return new Map(trialIds.map((trialId) => [trialId, flatten(direct.get(trialId), inputsOf)]))
}

/** The level it was made at may swap an ingredient; while none is said, each level's may have been in the glass, and the sheet's own. */
async function findLines(db: Db | Tx, cafeId: string, trialIds: readonly string[]): Promise<Map<string, Parts>> {
  const trials = await db.trial.findMany({
    where: { cafeId, id: { in: [...trialIds] } },
    select: {
      id: true,
      costLevelId: true,
      lines: {
        select: {
          batchId: true,
          ingredient: { select: ingredientShape },
          alternatives: { select: { costLevelId: true, batchId: true, ingredient: { select: ingredientShape } } },
        },
      },
    },
  })
  return new Map(
    trials.map((trial) => {
      const parts = trial.lines.flatMap((line): Part[] => {
        if (trial.costLevelId === null) return [line, ...line.alternatives]
        return [line.alternatives.find((one) => one.costLevelId === trial.costLevelId) ?? line]
      })
      return [trial.id, partsOf(parts)]
    }),
  )
}

async function findBatchTree(db: Db | Tx, cafeId: string, batchIds: readonly string[]): Promise<Map<string, Parts>> {
  const found = new Map<string, Parts>()
  let storey = [...new Set(batchIds)]
  while (storey.length > 0) {
    const inputs = await db.batchInput.findMany({
      where: { cafeId, batchId: { in: storey } },
      select: { batchId: true, inputBatchId: true, ingredient: { select: ingredientShape } },
    })
    for (const batchId of storey) {
      const own = inputs.filter((input) => input.batchId === batchId)
      found.set(batchId, partsOf(own.map(({ ingredient, inputBatchId }) => ({ ingredient, batchId: inputBatchId }))))
    }
    storey = [...new Set(storey.flatMap((batchId) => found.get(batchId)?.batchIds ?? []))].filter(
      (id) => !found.has(id),
    )
  }
  return found
}

function partsOf(parts: readonly Part[]): Parts {
  return {
    ingredients: parts.flatMap((part) => (part.ingredient ? [part.ingredient] : [])),
    batchIds: parts.flatMap((part) => (part.batchId ? [part.batchId] : [])),
  }
}

function flatten(direct: Parts | undefined, inputsOf: ReadonlyMap<string, Parts>): TrialContents {
  const ingredients = new Map<string, ContainedIngredient>()
  const batches = new Set<string>()
  const open: Parts[] = direct ? [direct] : []
  for (let parts = open.pop(); parts; parts = open.pop()) {
    for (const ingredient of parts.ingredients) ingredients.set(ingredient.id, ingredient)
    for (const batchId of parts.batchIds) {
      const inputs = inputsOf.get(batchId)
      if (!inputs || batches.has(batchId)) continue
      batches.add(batchId)
      open.push(inputs)
    }
  }
  return { ingredients: [...ingredients.values()], batchIds: [...batches] }
}
