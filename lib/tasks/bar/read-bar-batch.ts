import 'server-only'
import { findPreparation, type PreparationRow } from '@/lib/db/preparations'
import { scaledTo } from '@/lib/drink/formula'
import { isNotInDate } from '@/lib/drink/preparation'
import { pastBatches, type PastBatch } from '../store/past-batches'
import { formulaInputRef } from '../store/preparation-part'
import { readStore } from '../store/reach-store'
import { stepsOfBatch } from '../store/batch-steps'
import { keepingOfFormula } from '../store/batch-keeping'
import { findWorkedFormula, type WorkedFormula } from '../store/read-formula'
import { readLastBatch, type BatchSheet } from '../store/read-preparation'
import type { Reader, World } from '../world'
import { findHousePreparations } from './house-preparations'
import { inputsAgain, type InputAgain } from './last-inputs'

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
  /** opened packs of what goes in that are past their time, still on the shelf */
  readonly past: readonly PastBatch[]
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
  /** as the last one: its batch is past its date, and this was its number; else null */
  readonly pastBatch: number | null
  /** the number of the one to take in its place; null where none is */
  readonly takeBatch: number | null
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
  const now = world.now()
  if (worked && !asLast) {
    const past = pastBatches(worked.store, worked.row.inputs.map(formulaInputRef), now)
    return { ...byFormula(preparation, worked, grams), past }
  }
  const sheet = await readLastBatch(world, reader, preparationId)
  const again = sheet ? await inputsAgain(world, reader, sheet) : []
  const bought = again.flatMap(({ part }) => (part?.startsWith('ingredient:') ? [part] : []))
  const store = await readStore(world.db, reader.cafeId, now, bought)
  const past = pastBatches(store, bought, now)
  return { ...asTheLast(preparation, sheet, again, grams), hasFormula: worked !== null, past }
}

const celsius = (deci: number | null) => (deci === null ? null : deci / 10)

function byFormula(
  preparation: PreparationRow,
  worked: WorkedFormula,
  grams: number | null,
): Omit<BatchToMake, 'past'> {
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
      ...{ pastBatch: null, takeBatch: null },
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
  again: readonly InputAgain[],
  grams: number | null,
): Omit<BatchToMake, 'hasFormula' | 'past'> {
  const output = (sheet?.row.outputMg ?? 0) / 1000
  const targetGrams = sheet ? (grams ?? output) : null
  return {
    name: preparation.name,
    kind: preparation.kind,
    from: sheet ? { by: 'batch', number: sheet.row.number, outputGrams: output, steps: sheet.steps } : null,
    inputs: again.map(({ name, grams: amount, isStrainedOut, part, pastBatch, takeBatch }) => ({
      ...{ name, isStrainedOut, pastBatch, takeBatch },
      grams: (amount * (targetGrams ?? 0)) / output,
      lacking: part === null,
    })),
    targetGrams,
    brix: null,
    storageCelsius: celsius(preparation.storageDeciC),
    keepsHours: preparation.keepsHours,
    keeping: sheet?.keeping ?? null,
  }
}
