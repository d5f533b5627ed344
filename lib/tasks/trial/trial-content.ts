import 'server-only'
import type { Tx } from '@/lib/db/engine/client'
import { findCostLevel } from '@/lib/db/cost-levels'
import { findVessel } from '@/lib/db/vessels'
import type { TrialContent } from '@/lib/db/trials'
import { doseOf, type DoseRefusal } from '@/lib/drink/dose'
import { no, ok, type Result } from '@/lib/base/result'
import { isNew, type TrialSent } from '@/lib/forms/trial-form'
import { milligramsOf, type AmountRefusal } from '../milligrams'
import { namedBy, refOf, type Named, type Store } from '../store/store-part'
import type { World } from '../world'
import { inPassing, type Cook, type PassingRefusal } from './made-in-passing'

export type ContentRefusal = 'part-gone' | DoseRefusal | PassingRefusal | AmountRefusal

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
  const placed: { place: number; line: TrialContent['lines'][number] }[] = []
  const passing = inPassing(world, tx, actor)
  for (const [place, line] of sheet.lines.entries()) {
    if (!line.amount) continue
    const made = await passing.take(line)
    if (!made.ok) return no(made.reason, { line: String(place) })
    const { ref } = made.value
    const known = store.get(ref) ?? null
    if (!known && !isNew(line)) return no('part-gone', { line: String(place) })
    const typed = line.density && { value: line.density.value, of: line.densityFor ?? '' }
    const amount = { amount: line.amount.value, unit: line.unit }
    const dose = doseOf(amount, line.part ?? 'new', known ?? { ...made.value, preparation: null }, typed ?? null)
    if (!dose.ok) return no(dose.reason, { line: String(place), name: known?.name ?? line.newName ?? 'this line' })
    const { grams, density } = dose.value
    const targetMg = milligramsOf(grams)
    if (!targetMg.ok) return no(targetMg.reason, { line: String(place) })
    const row: TrialContent['lines'][number] = {
      id: world.id(),
      role: line.role ?? known?.kind ?? line.newKind ?? 'other',
      ...namedBy(ref, writtenWith(ref, targetMg.value, store, before)),
      targetMg: targetMg.value,
      typed: line.amount.typed,
      unit: line.unit,
      microdensity: density === null ? null : Math.round(density * 1_000_000),
      weighedMg: line.weighed ? milligrams(line.weighed.value) : null,
      toleranceMg: line.tolerance ? milligrams(line.tolerance.value) : null,
      temperatureDeciC: line.temperature === undefined ? null : Math.round(line.temperature * 10),
      grind: line.grind ?? null,
      note: line.note ?? null,
    }
    placed.push({ place: line.place ?? place, line: row })
  }
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

function trialFields(sheet: TrialSent): TrialContent['trial'] {
  return {
    name: sheet.name,
    method: sheet.method,
    ratioKind: sheet.ratioKind ?? null,
    ratioMilli: orNull(sheet.ratio?.value, 1000),
    retentionMilli: orNull(sheet.retention?.value, 1000),
    extractionBp: orNull(sheet.extraction, 100),
    strengthBp: orNull(sheet.strength, 100),
    waterDeciC: orNull(sheet.waterTemperature, 10),
    brewSeconds: orNull(sheet.brewMinutes, 60),
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
