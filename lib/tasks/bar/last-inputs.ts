import 'server-only'
import { findBatchesById } from '@/lib/db/batches'
import type { FormulaStart } from '../store/read-formula'
import type { BatchSheet } from '../store/read-preparation'
import type { Reader, World } from '../world'
import { isInDate } from '../store/in-date'
import { readStore } from '../store/reach-store'
import { readShelf, toPour } from './shelf'

/** An input as it went in then, and what stands for it today. */
export type InputAgain = FormulaStart['inputs'][number] & {
  /** of what the house makes: the batch that went in is past its date, and this is its number */
  readonly pastBatch: number | null
  /** the number of the one to take today; null where none is in date, and of what is bought */
  readonly takeBatch: number | null
}

/** What went into a batch, to be made again: of what the house makes, the batch that goes first today; null where none is in date. */
export async function inputsAgain(
  world: World,
  reader: Pick<Reader, 'cafeId'>,
  { row, preparation }: BatchSheet,
): Promise<readonly InputAgain[]> {
  const { db } = world
  const now = world.now()
  const ids = row.inputs.flatMap(({ inputBatchId }) => inputBatchId ?? [])
  const inner = await findBatchesById(db, reader.cafeId, ids)
  const store = await readStore(
    db,
    reader.cafeId,
    now,
    ids.map((id) => `batch:${id}`),
  )
  const shelf = await readShelf(db, reader.cafeId, [...new Set(inner.map(({ preparationId }) => preparationId))])
  const todayFor = (id: string | null) => {
    const before = inner.find((one) => one.id === id)
    if (!before) return { pastBatch: null, takeBatch: null, part: null }
    const batch = toPour(shelf, before.preparationId, now)
    const date = store.get(`batch:${before.id}`)?.discardAt ?? null
    return {
      pastBatch: isInDate({ discardAt: date }, now) ? null : before.number,
      takeBatch: batch?.number ?? null,
      part: batch && `batch:${batch.id}`,
    }
  }
  return row.inputs.map((input, at) => ({
    ...todayFor(input.inputBatchId),
    ...(input.ingredientId ? { part: `ingredient:${input.ingredientId}` } : {}),
    name: preparation.inputs[at]?.preparation?.name ?? preparation.inputs[at]?.name ?? '',
    grams: input.amountMg / 1000,
    temperature: input.temperatureDeciC === null ? null : input.temperatureDeciC / 10,
    isStrainedOut: input.isStrainedOut,
  }))
}
