import 'server-only'
import type { Db, Tx } from '@/lib/db/engine/client'
import { findNewestFormulas, type FormulaRow } from '@/lib/db/formulas'
import { findPreparationsById, type PreparationRow } from '@/lib/db/preparations'
import { findStanding, type Standing } from './in-date'

/** Preparations that something names without a batch, with all that their formulas name, and what stands of each. */
export interface Pours {
  readonly preparations: readonly PreparationRow[]
  /** the version that counts of each that has one */
  readonly formulas: readonly FormulaRow[]
  /** what must go first in front */
  readonly standing: readonly Standing[]
  readonly now: Date
}

const NO_POURS: Pours = { preparations: [], formulas: [], standing: [], now: new Date(0) }

export async function findPours(
  db: Db | Tx,
  cafeId: string,
  now: Date,
  preparationIds: readonly string[],
): Promise<Pours> {
  if (preparationIds.length === 0) return NO_POURS
  const met = new Set(preparationIds)
  const formulas: FormulaRow[] = []
  let storey: readonly string[] = [...met]
  while (storey.length > 0) {
    const rows = await findNewestFormulas(db, cafeId, storey)
    formulas.push(...rows)
    storey = [...new Set(rows.flatMap(({ inputs }) => inputs.flatMap((input) => input.preparationId ?? [])))].filter(
      (id) => !met.has(id),
    )
    for (const id of storey) met.add(id)
  }
  const [preparations, standing] = [
    await findPreparationsById(db, cafeId, [...met]),
    await findStanding(db, cafeId, [...met]),
  ]
  return { preparations, formulas, standing, now }
}
