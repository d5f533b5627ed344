import 'server-only'
import { batchFigures, type BatchFigures } from '@/lib/drink/batch-figures'
import type { Preparation } from '@/lib/drink/trial'
import { DATE_MARK_DAYS, keepingDays, keepingNote } from '@/lib/drink/water-activity'

/** How long a batch is good for, as far as its figures say. */
export interface BatchKeeping {
  /** what stands on its bottle; null where nothing is known but the label */
  readonly note: string | null
  /** days it keeps at most; null where nothing advises any */
  readonly days: number | null
  readonly hasMilk: boolean
}

export function keepingOfBatch(preparation: Preparation, figures: BatchFigures): BatchKeeping {
  const infused = preparation.inputs.some((line) => !['sweetener', 'water'].includes(line.kind) || line.preparation)
  const brix = figures.syrup?.brix
  const making = { heated: true, packagedHot: false, acidity: null, infused }
  // what was infused spoils at any Brix: its words ask for none
  const read = preparation.kind === 'infusion' ? 0 : null
  const known = brix?.known && brix.value < 100 ? brix.value : read
  const hasMilk = preparation.inputs.some((line) => line.kind === 'milk')
  const spoils = hasMilk || preparation.brew !== null
  return {
    note: known === null ? null : keepingNote(known, making),
    days: known === null ? (spoils ? DATE_MARK_DAYS : null) : keepingDays(known, making),
    hasMilk,
  }
}

/** The same of a batch that is not made yet. */
export function keepingOfFormula(preparation: Preparation, grams: number | null): BatchKeeping {
  return keepingOfBatch(preparation, batchFigures({ ...preparation, outputGrams: grams }))
}
