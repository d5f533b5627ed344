import 'server-only'
import { findBatchesById, findBatchesOf } from '@/lib/db/batches'
import { findFormulaVersions } from '@/lib/db/formulas'
import { findNames } from '@/lib/db/people'
import { batchFigures } from '@/lib/drink/batch-figures'
import { brixOf } from '@/lib/drink/preparation'
import type { Preparation } from '@/lib/drink/trial'
import type { Reader, World } from '../world'
import { readStore } from './reach-store'

/** What one batch came to. */
export interface BatchYield {
  readonly id: string
  readonly number: number
  readonly madeAt: Date | null
  readonly by: string | null
  /** the version it was made by */
  readonly version: number | null
  /** g; null where it is not known */
  readonly into: number | null
  /** g, weighed; null: not weighed yet */
  readonly output: number | null
  /** what came out of 100 g that went in */
  readonly percent: number | null
  /** °Bx; null where it was not read and does not follow from the weights */
  readonly brix: { readonly value: number; readonly isRead: boolean } | null
}

/** As many as can be told apart beside each other. */
const BATCHES_SHOWN = 40

/** What the newest batches of a preparation came to, the earliest of them first. */
export async function readYields(world: World, reader: Reader, preparationId: string): Promise<readonly BatchYield[]> {
  const { db } = world
  const lines = await findBatchesOf(db, reader.cafeId, preparationId, null, BATCHES_SHOWN)
  const ids = lines.map(({ id }) => id)
  const [rows, store] = [
    await findBatchesById(db, reader.cafeId, ids),
    await readStore(
      db,
      reader.cafeId,
      world.now(),
      ids.map((id) => `batch:${id}`),
    ),
  ]
  const [names, versions] = [
    await findNames(
      db,
      rows.flatMap(({ madeById }) => madeById ?? []),
    ),
    await findFormulaVersions(db, reader.cafeId, preparationId),
  ]
  return rows
    .toSorted((a, b) => a.number - b.number)
    .map((row) => {
      const preparation = store.get(`batch:${row.id}`)?.preparation ?? null
      const figures = preparation && batchFigures(preparation)
      const into = figures?.into.known ? figures.into.value : null
      const output = row.outputMg === null ? null : row.outputMg / 1000
      return {
        id: row.id,
        number: row.number,
        madeAt: row.madeAt,
        by: row.madeById ? (names.get(row.madeById) ?? 'somebody') : null,
        version: row.formulaId ? (versions.get(row.formulaId) ?? null) : null,
        into,
        output,
        percent: into !== null && into > 0 && output !== null ? (100 * output) / into : null,
        brix: preparation && brixHere(preparation),
      }
    })
}

function brixHere(preparation: Preparation): BatchYield['brix'] {
  if (preparation.brixMeasured === null && preparation.kind !== 'syrup') return null
  const { total, missing } = brixOf(preparation)
  return missing.length > 0 ? null : { value: total, isRead: preparation.brixMeasured !== null }
}
