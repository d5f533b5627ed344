import 'server-only'
import { findPreparation } from '@/lib/db/preparations'
import { readLastBatch, type BatchSheet } from '../store/read-preparation'
import type { Reader, World } from '../world'
import { findHousePreparations } from './house-preparations'

/** How to make a batch again: what the last one that was weighed out took, for another mass. Grams. */
export interface BatchToMake {
  readonly name: string
  readonly kind: string
  /** the batch it is worked out from; null where none was ever weighed out, and then there is nothing to go by */
  readonly from: { readonly number: number; readonly outputGrams: number; readonly steps: BatchSheet['steps'] } | null
  readonly inputs: readonly { readonly name: string; readonly grams: number }[]
  readonly targetGrams: number | null
  readonly storageCelsius: number | null
  readonly keepsHours: number | null
  readonly keeping: string | null
}

/**
 * @param grams  wanted; null: as much as the last one gave
 * @param reads  may see preparations that no house recipe is made of
 * @returns      null where there is no such preparation, or it is not the bar's
 *
 * Linear in mass: twice the pot simmers longer, so who makes much more or less than last time weighs it at the end.
 */
export async function readBarBatch(
  world: World,
  reader: Reader,
  preparationId: string,
  grams: number | null,
  reads: boolean,
): Promise<BatchToMake | null> {
  const preparation = await findPreparation(world.db, reader.cafeId, preparationId)
  if (!preparation) return null
  if (!reads && !(await findHousePreparations(world.db, reader.cafeId)).has(preparationId)) return null
  const sheet = await readLastBatch(world, reader, preparationId)
  const output = (sheet?.row.outputMg ?? 0) / 1000
  const targetGrams = sheet ? (grams ?? output) : null
  return {
    name: preparation.name,
    kind: preparation.kind,
    from: sheet ? { number: sheet.row.number, outputGrams: output, steps: sheet.steps } : null,
    inputs: (sheet?.preparation.inputs ?? []).map((line) => ({
      name: line.preparation?.name ?? line.name,
      grams: (line.targetGrams * (targetGrams ?? 0)) / output,
    })),
    targetGrams,
    storageCelsius: preparation.storageDeciC === null ? null : preparation.storageDeciC / 10,
    keepsHours: preparation.keepsHours,
    keeping: sheet?.keeping ?? null,
  }
}
