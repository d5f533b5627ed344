import 'server-only'
import { batchFigures } from '@/lib/drink/batch-figures'
import { problemsOfPreparation } from '@/lib/drink/problem'
import { findUsesOfBatch } from '@/lib/db/uses'
import { findPreparation } from '@/lib/db/preparations'
import { findBatchesOf, findBatch } from '@/lib/db/batches'
import { findNewestFormulas } from '@/lib/db/formulas'
import { findNames } from '@/lib/db/people'
import { keepingOfBatch } from './batch-keeping'
import { stepsOfBatch } from './batch-steps'
import { readOffer, readStore } from './reach-store'
import { pastBatches, type PastBatch } from './past-batches'
import { batchName, inputRef, type Store } from './store-part'
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

/** How far back the last batch that was weighed out is looked for. */
const LOOKED_BACK = 10

/** The last batch of a preparation that was weighed out: how it is made again. @returns null while there is none */
export async function readLastBatch(world: World, reader: Reader, preparationId: string): Promise<BatchSheet | null> {
  const rows = await findBatchesOf(world.db, reader.cafeId, preparationId, null, LOOKED_BACK)
  const last = rows.find(({ outputMg }) => outputMg !== null && outputMg > 0)
  return last ? readBatch(world, reader, last.id) : null
}

/** What a batch may be made of: anything but itself. @param batchId  the one being corrected; what it is made of stays on offer */
export async function readBatchOffer(world: World, reader: Reader, batchId: string | null) {
  const corrected = batchId === null ? null : await findBatch(world.db, reader.cafeId, batchId)
  const { parts } = await readOffer(world.db, reader.cafeId, world.now(), corrected?.inputs.map(inputRef))
  return parts.filter((part) => part.ref !== `batch:${batchId}`)
}

/** One batch: what went in, what came out, what that makes of it, and where it is poured. */
export async function readBatch(world: World, reader: Reader, id: string) {
  const row = await findBatch(world.db, reader.cafeId, id)
  if (!row) return null
  const [store, formulas, uses, names] = await Promise.all([
    readStore(world.db, reader.cafeId, world.now(), [`batch:${id}`]),
    findNewestFormulas(world.db, reader.cafeId, [row.preparationId]),
    findUsesOfBatch(world.db, reader.cafeId, id),
    findNames(world.db, row.madeById ? [row.madeById] : []),
  ])
  const preparation = store.get(`batch:${id}`)?.preparation
  if (!preparation) return null
  const figures = batchFigures(preparation)
  const keeping = keepingOfBatch(preparation, figures)
  return {
    row,
    name: batchName(row.preparation.name, row.number),
    preparation,
    figures,
    problems: problemsOfPreparation(preparation),
    hasFormula: formulas.length > 0,
    steps: stepsOfBatch(row.steps),
    keeping: keeping.note,
    overridden: overriddenBy(row, keeping.days),
    /** when it must be gone: the earliest of its own date and of what is in it, packs that stood open included */
    discardAt: store.get(`batch:${id}`)?.discardAt ?? null,
    outlived: outlived(row, store),
    hasMilk: keeping.hasMilk,
    uses,
    by: row.madeById ? (names.get(row.madeById) ?? 'somebody') : null,
  }
}

/** A keeping limit that the date on the bottle goes beyond, in days. */
export interface Overridden {
  readonly of: 'advice' | 'house'
  readonly days: number
}

type Dates = Pick<NonNullable<Awaited<ReturnType<typeof findBatch>>>, 'madeAt' | 'discardAt' | 'preparation' | 'inputs'>

/** Which limits would have it thrown away earlier than its date says? Without both dates nobody can tell. */
function overriddenBy({ madeAt, discardAt, preparation }: Dates, advised: number | null): readonly Overridden[] {
  if (madeAt === null || discardAt === null) return []
  const days = (discardAt.getTime() - madeAt.getTime()) / 86_400_000
  const own = preparation.keepsHours === null ? null : preparation.keepsHours / 24
  return [
    ...(own !== null && days > own + A_MINUTE ? [{ of: 'house' as const, days: own }] : []),
    ...(advised !== null && days > advised + A_MINUTE ? [{ of: 'advice' as const, days: advised }] : []),
  ]
}

/** Dates are typed to the minute. */
const A_MINUTE = 1 / 1440

/** What went in and was to be thrown away before this batch is: it takes the earliest date of what is in it. */
function outlived({ discardAt, inputs }: Dates, store: Store): readonly PastBatch[] {
  return discardAt === null
    ? []
    : pastBatches(
        store,
        // which pack went in nobody said: one that stands open today says nothing of it
        inputs.map(inputRef).filter((ref) => ref.startsWith('batch:')),
        discardAt,
      )
}

export type BatchSheet = NonNullable<Awaited<ReturnType<typeof readBatch>>>
