import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import type { Tx } from '@/lib/db/engine/client'
import {
  addAllergenMarks,
  addIngredient,
  findIngredientByName,
  findIngredient,
  changeIngredient,
  clearAllergenMarks,
} from '@/lib/db/ingredients'
import type { IngredientSent } from '@/lib/forms/ingredient-form'
import { ingredientMark, isStale, type OpenedWith } from '../opened-with'
import { tellLabelChange } from './upstream'
import { noteAct, type Actor, type World } from '../world'

export async function enterIngredient(
  world: World,
  actor: Actor,
  sent: IngredientSent,
): Promise<Result<string, 'name-taken'>> {
  return inTransaction(world, async (tx) => {
    if (await findIngredientByName(tx, actor.cafeId, sent.name)) return no('name-taken')
    const id = world.id()
    await addIngredient(tx, {
      id,
      cafeId: actor.cafeId,
      createdAt: world.now(),
      ...rowOf(sent),
      labelReadAt: sent.labelRead ? world.now() : null,
      labelReadById: sent.labelRead ? actor.userId : null,
    })
    await writeMarks(world, tx, actor, id, sent)
    await noteAct(world, tx, actor, {
      act: 'ingredient-added',
      subjectKind: 'ingredient',
      subjectId: id,
      detail: { name: sent.name, labelRead: sent.labelRead === 'on' },
    })
    return ok(id)
  })
}

/** Writes what the label in the hand says over what stood there. Who read the whole label stays named until it is unsaid. */
export async function correctIngredient(
  world: World,
  actor: Actor,
  id: string,
  sent: IngredientSent,
  opened: OpenedWith | null,
): Promise<Result<null, 'gone' | 'name-taken' | 'saved-elsewhere'>> {
  return inTransaction(world, async (tx) => {
    const before = await findIngredient(tx, actor.cafeId, id)
    if (!before) return no('gone')
    if (isStale(opened, ingredientMark(before))) return no('saved-elsewhere')
    const named = await findIngredientByName(tx, actor.cafeId, sent.name)
    if (named && named.id !== id) return no('name-taken')
    const stays = sent.labelRead && before.labelReadAt && sameMarks(before.allergens, marksOf(sent))
    const read = sent.labelRead ? { at: world.now(), by: actor.userId } : { at: null, by: null }
    await changeIngredient(tx, actor.cafeId, id, {
      ...rowOf(sent),
      ...(stays ? {} : { labelReadAt: read.at, labelReadById: read.by }),
    })
    await clearAllergenMarks(tx, actor.cafeId, id)
    await writeMarks(world, tx, actor, id, sent)
    await tellLabelChange(
      world,
      tx,
      actor,
      id,
      { row: before, marks: before.allergens, read: before.labelReadAt !== null },
      { row: rowOf(sent), marks: marksOf(sent), read: sent.labelRead === 'on' },
    )
    await noteAct(world, tx, actor, {
      act: 'ingredient-corrected',
      subjectKind: 'ingredient',
      subjectId: id,
      detail: { name: sent.name, labelRead: sent.labelRead === 'on' },
    })
    return ok(null)
  })
}

/** Puts an ingredient aside: it is offered no more, and stays in every trial and batch it stands in. */
export async function archiveIngredient(
  world: World,
  actor: Actor,
  id: string,
  archived: boolean,
): Promise<Result<null, 'gone'>> {
  return inTransaction(world, async (tx) => {
    if (!(await findIngredient(tx, actor.cafeId, id))) return no('gone')
    await changeIngredient(tx, actor.cafeId, id, { archivedAt: archived ? world.now() : null })
    await noteAct(world, tx, actor, {
      act: archived ? 'ingredient-put-aside' : 'ingredient-taken-up',
      subjectKind: 'ingredient',
      subjectId: id,
    })
    return ok(null)
  })
}

const marksOf = (sent: IngredientSent) =>
  Object.entries(sent.allergens).flatMap(([allergen, state]) => (state === 'not-stated' ? [] : [{ allergen, state }]))

type Mark = { readonly allergen: string; readonly state: string }

function sameMarks(before: readonly Mark[], after: readonly Mark[]): boolean {
  const said = (marks: readonly Mark[]) =>
    marks
      .filter(({ state }) => state !== 'not-stated')
      .map(({ allergen, state }) => `${allergen} ${state}`)
      .toSorted()
      .join()
  return said(before) === said(after)
}

async function writeMarks(world: World, tx: Tx, actor: Actor, ingredientId: string, sent: IngredientSent) {
  const marks = marksOf(sent).map((mark) => ({ ...mark, id: world.id(), cafeId: actor.cafeId, ingredientId }))
  await addAllergenMarks(tx, marks)
}

const scaled = (value: number | undefined, times: number) => (value === undefined ? null : Math.round(value * times))

function rowOf(sent: IngredientSent) {
  return {
    name: sent.name,
    kind: sent.kind,
    form: sent.form,
    microdensity: scaled(sent.density?.value, 1_000_000),
    densityIsAssumed: sent.densityIsAssumed === 'on' && sent.density !== undefined,
    brixHundredths: scaled(sent.brix, 100),
    sugarsMg: scaled(sent.sugars, 1000),
    freeSugarsMg: scaled(sent.freeSugars, 1000),
    fatMg: scaled(sent.fat, 1000),
    proteinMg: scaled(sent.protein, 1000),
    energyDecikcal: scaled(sent.energy, 10),
    waterMg: scaled(sent.water, 1000),
    solidsMg: scaled(sent.solids, 1000),
    caffeineLowMg100g: scaled(sent.caffeineLow, 10),
    caffeineHighMg100g: scaled(sent.caffeineHigh, 10),
    sweetnessPercent: scaled(sent.sweetness, 1),
    pumpUl: scaled(sent.pump, 1000),
    spoonMg: scaled(sent.spoon, 1000),
    alcoholBp: scaled(sent.alcohol, 100),
    openHours: scaled(sent.openHours, 1),
    isMilkOrPlantDrink: sent.kind === 'milk',
    keepsColdNote: sent.keepsCold ?? null,
    supplier: sent.supplier ?? null,
    figuresSource: sent.source ?? null,
    figuresDate: sent.sourceDay ? new Date(`${sent.sourceDay}T12:00:00Z`) : null,
    note: sent.note ?? null,
  }
}
