import 'server-only'
import type { Tx } from '@/lib/db/client'
import { findCostLevel } from '@/lib/db/cost-levels'
import { addIngredient, findIngredientByName } from '@/lib/db/ingredients'
import { findVessel } from '@/lib/db/vessels'
import type { TrialContent } from '@/lib/db/trials'
import { gramsOf } from '@/lib/drink/unit'
import { no, ok, type Result } from '@/lib/base/result'
import type { TrialLineSent, TrialSent } from '@/lib/forms/trial-form'
import { milligramsOf, type AmountRefusal } from './milligrams'
import type { Store } from './store-part'
import { noteAct, type Actor, type World } from './world'

export type ContentRefusal = 'part-gone' | 'density-missing' | AmountRefusal

/**
 * Turns a sent sheet into rows: grams beside what was typed, an ingredient for each name that is new.
 * A volume without a density is refused at its line; detail.line says which.
 */
export async function trialContent(
  world: World,
  tx: Tx,
  actor: Actor,
  sheet: TrialSent,
  store: Store,
): Promise<Result<TrialContent, ContentRefusal>> {
  const placed: { place: number; line: TrialContent['lines'][number] }[] = []
  for (const [place, line] of sheet.lines.entries()) {
    if (!line.amount) continue
    const ref = line.part && line.part !== 'new' ? line.part : await newIngredient(world, tx, actor, line)
    const known = store.get(ref)
    if (!known && ref === line.part) return no('part-gone', { line: String(place) })
    const density = line.density?.value ?? known?.density ?? null
    const target = gramsOf(line.amount.value, line.unit, density)
    if (!target.ok)
      return no('density-missing', { line: String(place), name: known?.name ?? line.newName ?? 'this line' })
    const targetMg = milligramsOf(target.value)
    if (!targetMg.ok) return no(targetMg.reason, { line: String(place) })
    const row: TrialContent['lines'][number] = {
      id: world.id(),
      role: line.role,
      ingredientId: ref.startsWith('ingredient:') ? ref.slice('ingredient:'.length) : null,
      batchId: ref.startsWith('batch:') ? ref.slice('batch:'.length) : null,
      targetMg: targetMg.value,
      typed: line.amount.typed,
      unit: line.unit,
      microdensity: density === null ? null : Math.round(density * 1_000_000),
      weighedMg: line.weighed ? milligrams(line.weighed.value) : null,
      toleranceMg: line.tolerance ? milligrams(line.tolerance.value) : null,
      temperatureDeciC: line.temperature === undefined ? null : Math.round(line.temperature * 10),
      note: line.note ?? null,
    }
    placed.push({ place: line.place ?? place, line: row })
  }
  const lines = placed.toSorted((a, b) => a.place - b.place).map(({ line }) => line)
  // A vessel or a level that is not this café's is no vessel and no level.
  const vessel = sheet.vesselId ? await findVessel(tx, actor.cafeId, sheet.vesselId) : null
  const level = sheet.costLevelId ? await findCostLevel(tx, actor.cafeId, sheet.costLevelId) : null
  const trial = { ...trialFields(sheet), vesselId: vessel?.id ?? null, costLevelId: level?.id ?? null }
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

/** A name typed into a line becomes an ingredient that nothing is known of yet: its label counts as unread. */
async function newIngredient(world: World, tx: Tx, actor: Actor, line: TrialLineSent): Promise<string> {
  const name = line.newName ?? ''
  const there = await findIngredientByName(tx, actor.cafeId, name)
  if (there) return `ingredient:${there.id}`
  const id = world.id()
  const form = line.role === 'ice' ? 'ice' : line.role === 'coffee' ? 'grounds' : 'liquid'
  await addIngredient(tx, { id, cafeId: actor.cafeId, name, kind: line.role, form, createdAt: world.now() })
  await noteAct(world, tx, actor, {
    act: 'ingredient-added',
    subjectKind: 'ingredient',
    subjectId: id,
    detail: { name },
  })
  return `ingredient:${id}`
}
