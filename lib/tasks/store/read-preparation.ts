import 'server-only'
import { batchFigures } from '@/lib/drink/batch-figures'
import { keepingNote } from '@/lib/drink/water-activity'
import { findUsesOfBatch } from '@/lib/db/uses'
import { findPreparation } from '@/lib/db/preparations'
import { findBatchesOf, findBatch } from '@/lib/db/batches'
import { findNames } from '@/lib/db/people'
import { readOffer, readStore } from './reach-store'
import { batchName, inputRef } from './store-part'
import type { World, Reader } from '../world'

export async function readPreparation(world: World, reader: Reader, id: string) {
  return findPreparation(world.db, reader.cafeId, id)
}

/** The newest batches of a preparation, fifty to a page. @param before  number of the last one seen */
export async function readBatchesOf(world: World, reader: Reader, preparationId: string, before: number | null) {
  const rows = await findBatchesOf(world.db, reader.cafeId, preparationId, before, batchesShown + 1)
  const batches = rows.slice(0, batchesShown)
  return { batches, earlier: rows.length > batchesShown ? (batches.at(-1)?.number ?? null) : null }
}

const batchesShown = 50

/** What a batch may be made of: anything but itself. @param batchId  the one being corrected; what it is made of stays on offer */
export async function readBatchOffer(world: World, reader: Reader, batchId: string | null) {
  const corrected = batchId === null ? null : await findBatch(world.db, reader.cafeId, batchId)
  const { parts } = await readOffer(world.db, reader.cafeId, world.now(), corrected?.inputs.map(inputRef))
  return parts.filter((part) => part.ref !== `batch:${batchId}`)
}

export interface BatchStep {
  readonly text: string
  readonly minutes?: number
}

function stepsOfBatch(steps: string | null): readonly BatchStep[] {
  return steps === null ? [] : (JSON.parse(steps) as BatchStep[])
}

/** One batch: what went in, what came out, what that makes of it, and where it is poured. */
export async function readBatch(world: World, reader: Reader, id: string) {
  const row = await findBatch(world.db, reader.cafeId, id)
  if (!row) return null
  const [store, uses, names] = await Promise.all([
    readStore(world.db, reader.cafeId, world.now(), [`batch:${id}`]),
    findUsesOfBatch(world.db, reader.cafeId, id),
    findNames(world.db, row.madeById ? [row.madeById] : []),
  ])
  const preparation = store.get(`batch:${id}`)?.preparation
  if (!preparation) return null
  const figures = batchFigures(preparation)
  const infused = preparation.inputs.some((line) => !['sweetener', 'water'].includes(line.kind) || line.preparation)
  const brix = figures.syrup?.brix
  return {
    row,
    name: batchName(row.preparation.name, row.number),
    preparation,
    figures,
    steps: stepsOfBatch(row.steps),
    keeping:
      brix?.known && brix.value < 100
        ? keepingNote(brix.value, { heated: true, packagedHot: false, acidity: null, infused })
        : null,
    hasMilk: preparation.inputs.some((line) => line.kind === 'milk'),
    uses,
    by: row.madeById ? (names.get(row.madeById) ?? 'somebody') : null,
  }
}

export type BatchSheet = NonNullable<Awaited<ReturnType<typeof readBatch>>>
