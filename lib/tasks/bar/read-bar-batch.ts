import 'server-only'
import { findPreparation, type PreparationRow } from '@/lib/db/preparations'
import { scaledTo } from '@/lib/drink/formula'
import { isNotInDate } from '@/lib/drink/preparation'
import { stepsOfBatch } from '../store/batch-steps'
import { keepingOfFormula } from '../store/batch-keeping'
import { findWorkedFormula, type WorkedFormula } from '../store/read-formula'
import { readLastBatch, type BatchSheet } from '../store/read-preparation'
import type { Reader, World } from '../world'
import { findHousePreparations } from './house-preparations'

/** How to make a batch: by the formula, or as the last one that was weighed out, for another mass. Grams. */
export interface BatchToMake {
  readonly name: string
  readonly kind: string
  /** what it is worked out from; null where there is no formula and none was ever weighed out: nothing to go by */
  readonly from: BatchOrigin | null
  /** it can be made by the formula as well as like a batch */
  readonly hasFormula: boolean
  readonly inputs: readonly BatchInputToMake[]
  /** null where nobody can know what comes out */
  readonly targetGrams: number | null
  readonly brix: number | null
  readonly storageCelsius: number | null
  readonly keepsHours: number | null
  readonly keeping: string | null
}

export interface BatchOrigin {
  readonly by: 'formula' | 'batch'
  /** its version, or its number */
  readonly number: number
  /** null where it is not known: then no other mass can be worked out */
  readonly outputGrams: number | null
  readonly steps: BatchSheet['steps']
}

export interface BatchInputToMake {
  readonly name: string
  readonly grams: number
  readonly isStrainedOut: boolean
  /** of another preparation: nothing of it is in date */
  readonly lacking: boolean
}

/** What is asked of a batch to make. */
export interface BatchAsked {
  /** null: as much as the formula or the last one gives */
  readonly grams: number | null
  /** as the last one, though there is a formula */
  readonly asLast: boolean
}

/**
 * @param reads  may see preparations that no house recipe is made of
 * @returns      null where there is no such preparation, or it is not the bar's
 *
 * Linear in mass: twice the pot simmers longer, so who makes much more or less than last time weighs it at the end.
 */
export async function readBarBatch(
  world: World,
  reader: Reader,
  preparationId: string,
  { grams, asLast }: BatchAsked,
  reads: boolean,
): Promise<BatchToMake | null> {
  const preparation = await findPreparation(world.db, reader.cafeId, preparationId)
  if (!preparation) return null
  if (!reads && !(await findHousePreparations(world.db, reader.cafeId)).has(preparationId)) return null
  const worked = await findWorkedFormula(world.db, reader.cafeId, world.now(), preparationId)
  if (worked && !asLast) return byFormula(preparation, worked, grams)
  const sheet = await readLastBatch(world, reader, preparationId)
  return { ...asTheLast(preparation, sheet, grams), hasFormula: worked !== null }
}

const celsius = (deci: number | null) => (deci === null ? null : deci / 10)

function byFormula(preparation: PreparationRow, worked: WorkedFormula, grams: number | null): BatchToMake {
  const { row, gives, preparation: made } = worked
  const targetGrams = gives && (grams ?? gives.grams)
  const amounts = made.inputs.map((line) => line.targetGrams)
  const scaled = gives && targetGrams ? scaledTo(amounts, gives.grams, targetGrams) : amounts
  const brix = row.brixHundredths === null ? null : row.brixHundredths / 100
  return {
    name: preparation.name,
    kind: preparation.kind,
    from: {
      by: 'formula',
      number: row.version,
      outputGrams: gives?.grams ?? null,
      steps: stepsOfBatch(row.steps),
    },
    hasFormula: true,
    inputs: made.inputs.map((line, at) => ({
      name: line.preparation?.name ?? line.name,
      grams: scaled[at] ?? line.targetGrams,
      isStrainedOut: row.inputs[at]?.isStrainedOut ?? false,
      lacking: line.preparation !== null && isNotInDate(line.preparation),
    })),
    targetGrams,
    brix,
    storageCelsius: celsius(row.storageDeciC ?? preparation.storageDeciC),
    keepsHours: row.keepsHours ?? preparation.keepsHours,
    keeping: keepingOfFormula(made, gives?.grams ?? null).note,
  }
}

function asTheLast(
  preparation: PreparationRow,
  sheet: BatchSheet | null,
  grams: number | null,
): Omit<BatchToMake, 'hasFormula'> {
  const output = (sheet?.row.outputMg ?? 0) / 1000
  const targetGrams = sheet ? (grams ?? output) : null
  return {
    name: preparation.name,
    kind: preparation.kind,
    from: sheet ? { by: 'batch', number: sheet.row.number, outputGrams: output, steps: sheet.steps } : null,
    inputs: (sheet?.preparation.inputs ?? []).map((line, at) => ({
      name: line.preparation?.name ?? line.name,
      grams: (line.targetGrams * (targetGrams ?? 0)) / output,
      isStrainedOut: sheet?.row.inputs[at]?.isStrainedOut ?? false,
      lacking: false,
    })),
    targetGrams,
    brix: null,
    storageCelsius: celsius(preparation.storageDeciC),
    keepsHours: preparation.keepsHours,
    keeping: sheet?.keeping ?? null,
  }
}
