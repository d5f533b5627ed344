import 'server-only'
import { findBatchesById } from '@/lib/db/batches'
import type { FormulaStart } from '../store/read-formula'
import type { BatchSheet } from '../store/read-preparation'
import type { Reader, World } from '../world'
import { readShelf, toPour } from './shelf'

/** What went into a batch, to be made again: of what the house makes, the batch that goes first today; null where none is in date. */
export async function inputsAgain(
  world: World,
  reader: Pick<Reader, 'cafeId'>,
  { row, preparation }: BatchSheet,
): Promise<FormulaStart['inputs']> {
  const { db } = world
  const now = world.now()
  const ids = row.inputs.flatMap(({ inputBatchId }) => inputBatchId ?? [])
  const inner = new Map((await findBatchesById(db, reader.cafeId, ids)).map((one) => [one.id, one.preparationId]))
  const shelf = inner.size === 0 ? [] : await readShelf(db, reader.cafeId, [...new Set(inner.values())])
  const batchFor = (id: string | null) => {
    const batch = toPour(shelf, inner.get(id ?? '') ?? '', now)
    return batch && `batch:${batch.id}`
  }
  return row.inputs.map((input, at) => ({
    part: input.ingredientId ? `ingredient:${input.ingredientId}` : batchFor(input.inputBatchId),
    name: preparation.inputs[at]?.preparation?.name ?? preparation.inputs[at]?.name ?? '',
    grams: input.amountMg / 1000,
    temperature: input.temperatureDeciC === null ? null : input.temperatureDeciC / 10,
    isStrainedOut: input.isStrainedOut,
  }))
}
