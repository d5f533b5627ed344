import 'server-only'
import { stepsOfBatch, type BatchStep } from './batch-steps'
import type { Db, Tx } from '@/lib/db/engine/client'
import { findBatchesOf, findBatchesById } from '@/lib/db/batches'
import { findFormulas, findNewestFormulas, type FormulaRow } from '@/lib/db/formulas'
import { findNames } from '@/lib/db/people'
import { findPreparations } from '@/lib/db/preparations'
import { batchFigures, type BatchFigures } from '@/lib/drink/batch-figures'
import { changesBetween, yieldOf, type FormulaChange, type Version, type Yield } from '@/lib/drink/formula'
import type { Preparation } from '@/lib/drink/trial'
import type { Reader, World } from '../world'
import { formulaInputRef, formulaPreparation } from './preparation-part'
import { readOffer, readStore } from './reach-store'
import type { Store, StorePart } from './store-part'

/** A version as it was kept, and what it changed. */
export interface FormulaVersion {
  readonly row: FormulaRow
  readonly steps: readonly BatchStep[]
  readonly by: string | null
  /** what changed since the version before; empty for the first */
  readonly changes: readonly FormulaChange[]
}

/** How a preparation is made: the version that counts worked out, then every version, newest first. */
export interface FormulaSheet {
  readonly newest: FormulaVersion
  readonly figures: BatchFigures
  /** what it gives, and by what one knows; null: nobody can */
  readonly gives: Yield | null
  readonly versions: readonly FormulaVersion[]
}

const VERSIONS_SHOWN = 50

/** @returns null while a preparation has no formula */
export async function readFormula(world: World, reader: Reader, preparationId: string): Promise<FormulaSheet | null> {
  const rows = await findFormulas(world.db, reader.cafeId, preparationId, VERSIONS_SHOWN + 1)
  const names = await findNames(
    world.db,
    rows.flatMap(({ createdById }) => createdById ?? []),
  )
  const versions = rows.slice(0, VERSIONS_SHOWN).map((row, at): FormulaVersion => {
    const before = rows[at + 1]
    return {
      row,
      steps: stepsOfBatch(row.steps),
      by: row.createdById ? (names.get(row.createdById) ?? 'somebody') : null,
      changes: before ? changesBetween(versionOf(before), versionOf(row)) : [],
    }
  })
  const [newest] = versions
  if (!newest) return null
  const { preparation, gives } = await workOut(world.db, reader.cafeId, world.now(), newest.row)
  const figures = batchFigures({ ...preparation, outputGrams: gives?.grams ?? null })
  return { newest, figures, gives, versions }
}

/** The version that counts with what it is made of today. */
export interface WorkedFormula {
  readonly row: FormulaRow
  readonly preparation: Preparation
  readonly gives: Yield | null
  readonly store: Store
}

/** @returns null while a preparation has no formula */
export async function findWorkedFormula(
  db: Db | Tx,
  cafeId: string,
  now: Date,
  preparationId: string,
): Promise<WorkedFormula | null> {
  const [row] = await findNewestFormulas(db, cafeId, [preparationId])
  return row ? workOut(db, cafeId, now, row) : null
}

/** A batch to be made by the version that counts, of the batches that are in date. */
export interface FormulaStart {
  readonly row: FormulaRow
  readonly steps: readonly BatchStep[]
  readonly gives: Yield | null
  readonly inputs: readonly {
    /** "ingredient:ID" or "batch:ID"; null: no batch of it is in date */
    readonly part: string | null
    readonly name: string
    readonly grams: number
    readonly temperature: number | null
    readonly isStrainedOut: boolean
  }[]
}

/** @returns null while a preparation has no formula */
export async function readFormulaStart(
  world: World,
  reader: Reader,
  preparationId: string,
): Promise<FormulaStart | null> {
  const worked = await findWorkedFormula(world.db, reader.cafeId, world.now(), preparationId)
  if (!worked) return null
  const { row, gives, store } = worked
  const partOf = (ref: string) => {
    const pour = store.get(ref)?.pour
    return pour ? pour.batch && `batch:${pour.batch.id}` : ref
  }
  const inputs = versionOf(row).inputs.map(({ ref, ...input }) => ({ ...input, part: partOf(ref) }))
  return { row, gives, steps: stepsOfBatch(row.steps), inputs }
}

async function workOut(db: Db | Tx, cafeId: string, now: Date, row: FormulaRow): Promise<WorkedFormula> {
  const store = await readStore(db, cafeId, now, row.inputs.map(formulaInputRef))
  const preparation = formulaPreparation(row, (ref) => store.get(ref) ?? null)
  const target = {
    grams: row.targetMg === null ? null : row.targetMg / 1000,
    brix: row.brixHundredths === null ? null : row.brixHundredths / 100,
  }
  const measured = await measuredYield(db, cafeId, row)
  return { row, preparation, gives: yieldOf(preparation, target, measured), store }
}

/** How far back the last batch that was weighed out is looked for. */
const LOOKED_BACK = 10

/** Output per gram of input of the newest batch that was made by this version and weighed out. */
async function measuredYield(db: Db | Tx, cafeId: string, row: FormulaRow): Promise<number | null> {
  const lines = await findBatchesOf(db, cafeId, row.preparationId, null, LOOKED_BACK)
  const batches = await findBatchesById(
    db,
    cafeId,
    lines.map(({ id }) => id),
  )
  const [last] = batches
    .filter(({ formulaId, outputMg }) => formulaId === row.id && outputMg !== null && outputMg > 0)
    .toSorted((a, b) => b.number - a.number)
  const into = last?.inputs.reduce((sum, { amountMg }) => sum + amountMg, 0) ?? 0
  return last?.outputMg && into > 0 ? last.outputMg / into : null
}

const tenth = (value: number | null) => (value === null ? null : value / 10)

function versionOf(row: FormulaRow): Version {
  return {
    inputs: row.inputs.map((input) => ({
      ref: formulaInputRef(input),
      name: input.ingredient?.name ?? input.preparation?.name ?? 'something that is gone',
      grams: input.amountMg / 1000,
      temperature: tenth(input.temperatureDeciC),
      isStrainedOut: input.isStrainedOut,
    })),
    target: {
      grams: row.targetMg === null ? null : row.targetMg / 1000,
      brix: row.brixHundredths === null ? null : row.brixHundredths / 100,
    },
    retention: row.retentionMilli === null ? null : row.retentionMilli / 1000,
    storage: tenth(row.storageDeciC),
    keepsHours: row.keepsHours,
    steps: stepsOfBatch(row.steps),
    note: row.note,
  }
}

/** What a formula may take: ingredients, and preparations by name but itself; what it takes already stays on offer. */
export async function readFormulaOffer(
  world: World,
  reader: Reader,
  preparationId: string,
): Promise<readonly StorePart[]> {
  const { db } = world
  const [newest] = await findNewestFormulas(db, reader.cafeId, [preparationId])
  const used = newest?.inputs.map(formulaInputRef) ?? []
  const { parts } = await readOffer(
    db,
    reader.cafeId,
    world.now(),
    used.filter((ref) => ref.startsWith('ingredient:')),
  )
  const preparations = (await findPreparations(db, reader.cafeId)).filter(
    ({ id, archivedAt }) => id !== preparationId && (archivedAt === null || used.includes(`preparation:${id}`)),
  )
  const refs = preparations.map(({ id }) => `preparation:${id}`)
  const store = await readStore(db, reader.cafeId, world.now(), refs)
  return [
    ...parts.filter(({ ref }) => ref.startsWith('ingredient:')),
    ...refs.flatMap((ref) => {
      const part = store.get(ref)
      return part?.pour ? [{ ...part, name: part.pour.name }] : []
    }),
  ]
}
