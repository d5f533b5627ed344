import 'server-only'
import { findBatchesOf } from '@/lib/db/batches'
import { findPreparation } from '@/lib/db/preparations'
import { readFormulaStart, type FormulaStart } from '../store/read-formula'
import { readBatchOffer, readLastBatch, type BatchSheet } from '../store/read-preparation'
import type { StorePart } from '../store/store-part'
import type { Reader, World } from '../world'
import { findBarParts } from './bar-parts'
import { findHousePreparations } from './house-preparations'
import { inputsAgain } from './last-inputs'

/** What a batch is written down from: what ought to have gone in, and what may have. */
export interface BatchRecord {
  readonly name: string
  readonly kind: string
  /** the number it gets */
  readonly number: number
  readonly from: { readonly by: 'formula' | 'batch'; readonly number: number } | null
  /** the version it was begun from; null where it was none */
  readonly formulaId: string | null
  readonly steps: FormulaStart['steps']
  /** g that these inputs give; null where nobody knows */
  readonly givesGrams: number | null
  readonly inputs: FormulaStart['inputs']
  /** what may have gone in; of a bar nothing with a cost */
  readonly parts: readonly StorePart[]
}

/**
 * @param asLast  as the last one, though there is a formula
 * @param reads   may also record what no house recipe is made of
 * @returns       null where there is no such preparation, or it is not the bar's
 */
export async function readBatchRecord(
  world: World,
  reader: Reader,
  preparationId: string,
  asLast: boolean,
  reads: boolean,
): Promise<BatchRecord | null> {
  const { db } = world
  const preparation = await findPreparation(db, reader.cafeId, preparationId)
  if (!preparation) return null
  if (!reads && !(await findHousePreparations(db, reader.cafeId)).has(preparationId)) return null
  const formula = asLast ? null : await readFormulaStart(world, reader, preparationId)
  const last = formula ? null : await readLastBatch(world, reader, preparationId)
  const [newest] = await findBatchesOf(db, reader.cafeId, preparationId, null, 1)
  const parts = reads
    ? await readBatchOffer(world, reader, last?.row.id ?? null)
    : await findBarParts(db, reader.cafeId, world.now())
  const { name, kind } = preparation
  const head = { name, kind, number: (newest?.number ?? 0) + 1, parts }
  if (formula) return { ...head, ...byFormula(formula) }
  return last
    ? { ...head, ...(await asTheLast(world, reader, last)) }
    : { ...head, from: null, formulaId: null, steps: [], givesGrams: null, inputs: [] }
}

const byFormula = ({ row, steps, gives, inputs }: FormulaStart) => ({
  from: { by: 'formula' as const, number: row.version },
  formulaId: row.id,
  steps,
  givesGrams: gives?.grams ?? null,
  inputs,
})

/** What went in then, of what is in date today. */
const asTheLast = async (world: World, reader: Reader, sheet: BatchSheet) => ({
  from: { by: 'batch' as const, number: sheet.row.number },
  formulaId: null,
  steps: sheet.steps,
  givesGrams: (sheet.row.outputMg ?? 0) / 1000,
  inputs: await inputsAgain(world, reader, sheet),
})
