import 'server-only'
import type { Tx } from '@/lib/db/engine/client'
import { findCostLevel } from '@/lib/db/cost-levels'
import { findVessel } from '@/lib/db/vessels'
import type { TrialContent } from '@/lib/db/trials'
import { ok, type Result } from '@/lib/base/result'
import type { TrialSent } from '@/lib/forms/trial-form'
import { namedBy, refOf, type Named, type Store } from '../store/store-part'
import type { World } from '../world'
import { dosesOf, type LineRefusal } from './line-doses'
import { inPassing, type Cook } from './made-in-passing'
import { brewOf } from './trial-build'

export type ContentRefusal = LineRefusal

interface Sent {
  readonly recipeId: string
  readonly sheet: TrialSent
  readonly store: Store
  /** lines of the draft that is changed */
  readonly before?: readonly (Named & { readonly targetMg: number })[]
}

/** The batch that a dose of a preparation was written for: today's, or the one before where the dose stays as it was. */
function writtenWith(ref: string, targetMg: number, store: Store, before: NonNullable<Sent['before']>): string | null {
  const same = before.find((line) => refOf(line) === ref && line.targetMg === targetMg)
  return same?.batchId ?? store.get(ref)?.pour?.batch?.id ?? null
}

/**
 * Turns a sent sheet into rows: grams beside what was typed, an ingredient for each name that is new, labels read and prices
 * typed in passing. Nothing is written where anything of it is refused.
 * A volume without a density is refused at its line, and a name that nobody said of what it is; detail.line says which.
 */
export async function trialContent(
  world: World,
  tx: Tx,
  actor: Cook,
  { recipeId, sheet, store, before = [] }: Sent,
): Promise<Result<TrialContent, ContentRefusal>> {
  const passing = inPassing(world, tx, actor)
  const doses = await dosesOf(passing, sheet, store, brewOf(brewFields(sheet)))
  if (!doses.ok) return doses
  const placed = doses.value.map(({ place, line, ref, known, mg, perUnit }) => {
    const row: TrialContent['lines'][number] = {
      id: world.id(),
      role: line.role ?? known?.kind ?? line.newKind ?? 'other',
      ...namedBy(ref, writtenWith(ref, mg, store, before)),
      targetMg: mg,
      typed: line.amount.typed,
      unit: line.unit,
      // g of what was typed: of a millilitre, or of a part
      microdensity: perUnit === null ? null : Math.round(perUnit * 1_000_000),
      weighedMg: line.weighed ? milligrams(line.weighed.value) : null,
      toleranceMg: line.tolerance ? milligrams(line.tolerance.value) : null,
      temperatureDeciC: line.temperature === undefined ? null : Math.round(line.temperature * 10),
      grind: line.grind ?? null,
      note: line.note ?? null,
    }
    return { place: line.place ?? place, line: row }
  })
  const lines = placed.toSorted((a, b) => a.place - b.place).map(({ line }) => line)
  // A vessel that is not this café's is no vessel, a level that is not this recipe's no level.
  const vessel = sheet.vesselId ? await findVessel(tx, actor.cafeId, sheet.vesselId) : null
  const level = sheet.costLevelId ? await findCostLevel(tx, actor.cafeId, sheet.costLevelId) : null
  const trial = {
    ...trialFields(sheet),
    vesselId: vessel?.id ?? null,
    costLevelId: level?.recipeId === recipeId ? level.id : null,
  }
  await passing.write()
  return ok({ trial, lines, steps: stepsOf(world, sheet) })
}

export const milligrams = (grams: number) => Math.round(grams * 1000)
const orNull = (value: number | undefined, times: number) => (value === undefined ? null : Math.round(value * times))

function brewFields(sheet: TrialSent) {
  return {
    method: sheet.method,
    ratioKind: sheet.ratioKind ?? null,
    ratioMilli: orNull(sheet.ratio?.value, 1000),
    retentionMilli: orNull(sheet.retention?.value, 1000),
    extractionBp: orNull(sheet.extraction, 100),
    strengthBp: orNull(sheet.strength, 100),
    waterDeciC: orNull(sheet.waterTemperature, 10),
    brewSeconds: orNull(sheet.brewMinutes, 60),
  }
}

function trialFields(sheet: TrialSent): TrialContent['trial'] {
  return {
    name: sheet.name,
    ...brewFields(sheet),
    coffeeDeciC: orNull(sheet.coffeeTemperature, 10),
    iceDeciC: orNull(sheet.iceTemperature, 10),
    iceIsWet: sheet.iceIsWet === 'on',
  }
}

function stepsOf(world: World, sheet: TrialSent): TrialContent['steps'] {
  return sheet.steps.flatMap((step) =>
    step.text ? [{ id: world.id(), text: step.text, seconds: step.seconds ?? null }] : [],
  )
}
