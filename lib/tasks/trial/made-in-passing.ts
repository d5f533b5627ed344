import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { readNumber } from '@/lib/base/typed-number'
import { dayIn } from '@/lib/base/zone-time'
import { requireCafe } from '@/lib/db/cafes'
import type { Tx } from '@/lib/db/engine/client'
import {
  addAllergenMarks,
  addIngredient,
  clearAllergenMarks,
  findIngredient,
  findIngredientByName,
  setLabelRead,
  type IngredientCardRow,
} from '@/lib/db/ingredients'
import { usualDensity } from '@/lib/drink/part'
import type { BuildLine } from '@/lib/drink/trial'
import { gramsOf } from '@/lib/drink/unit'
import type { Currency } from '@/lib/forms/fields'
import { ingredientForms, ingredientKinds } from '@/lib/forms/ingredient-form'
import { moneyField } from '@/lib/forms/number-fields'
import { isNew, type TrialLineSent } from '@/lib/forms/trial-form'
import { milligramsOf } from '../milligrams'
import { writePrice } from '../store/add-price'
import { stillCountsIn } from '../store/still-counts-in'
import { tellLabelChange } from '../store/upstream'
import { noteAct, type Actor, type World } from '../world'

export type PassingRefusal = 'kind-missing' | 'price-unread' | 'pack-unweighable' | 'currency-changed'

/** Who writes a sheet, and the money that its prices are read in. */
export type Cook = Actor & { readonly cafe: Currency }

/** What a line is made of, by the time the sheet is kept. */
export interface Meant extends Pick<BuildLine, 'kind' | 'form'> {
  readonly ref: string
  /** g/ml as the store will keep it */
  readonly density: number | null
}

type Write = () => Promise<void>

/**
 * What a sheet brings into the store beside itself: names that become ingredients, labels that were read, prices. `take`
 * looks at a line and refuses what cannot be kept; `write` keeps all of it, once the whole sheet was found good.
 */
export function inPassing(world: World, tx: Tx, actor: Cook) {
  const writes: Write[] = []
  const made = new Map<string, Meant>()

  const take = async (line: TrialLineSent): Promise<Result<Meant, PassingRefusal>> => {
    const name = line.newName ?? ''
    const before = isNew(line) ? made.get(name) : undefined
    if (before) return ok(before)
    const there = await ingredientOf(tx, actor, line)
    if (!there && !isNew(line)) return ok({ ref: line.part ?? '', density: null, kind: 'other', form: 'liquid' })
    const { newKind: kind, newForm: form } = line
    if (!there && (!kind || !form)) return no('kind-missing')
    const density = there ? densityOf(there) : (densityTyped(line) ?? (kind && form ? usualDensity(kind, form) : null))
    const ingredient = { id: there?.id ?? world.id(), name: there?.name ?? name }
    const first = (there?.prices.length ?? 0) === 0
    const priced = await pricing(world, tx, actor, { line, ingredient, density, first })
    if (!priced.ok) return priced
    if (!there && kind && form)
      writes.push(() => addNew(world, tx, actor, { line, id: ingredient.id, name, kind, form }))
    else if (there) writes.push(() => readLabel(world, tx, actor, there, line))
    if (priced.value) writes.push(priced.value)
    const meant = { ref: `ingredient:${ingredient.id}`, density, ...howItEnters(there ?? { kind, form }) }
    if (isNew(line)) made.set(name, meant)
    return ok(meant)
  }
  const write = async () => {
    for (const one of writes) await one()
  }
  return { take, write }
}

const INGREDIENT = 'ingredient:'

/** The ingredient a line names, if the store has it; of what is not asked about in passing nothing is looked up. */
async function ingredientOf(tx: Tx, { cafeId }: Actor, line: TrialLineSent): Promise<IngredientCardRow | null> {
  if (isNew(line)) {
    const named = await findIngredientByName(tx, cafeId, line.newName ?? '')
    return named && findIngredient(tx, cafeId, named.id)
  }
  const asked = line.labelRead ?? line.price ?? line.contains?.[0]
  if (asked === undefined || !line.part?.startsWith(INGREDIENT)) return null
  return findIngredient(tx, cafeId, line.part.slice(INGREDIENT.length))
}

const howItEnters = (of: { readonly kind?: string | undefined; readonly form?: string | undefined }) => ({
  kind: ingredientKinds.find((one) => one === of.kind) ?? 'other',
  form: ingredientForms.find((one) => one === of.form) ?? 'liquid',
})
const densityOf = ({ microdensity }: IngredientCardRow) => (microdensity === null ? null : microdensity / 1_000_000)
const densityTyped = ({ density, densityFor }: TrialLineSent) =>
  densityFor === 'new' ? (density?.value ?? null) : null

/** A new ingredient, of which nothing is known but what was said beside its name: nothing is taken for granted. */
async function addNew(
  world: World,
  tx: Tx,
  actor: Actor,
  made: {
    readonly line: TrialLineSent
    readonly id: string
    readonly name: string
    readonly kind: NonNullable<TrialLineSent['newKind']>
    readonly form: NonNullable<TrialLineSent['newForm']>
  },
): Promise<void> {
  const { line, id, name, kind, form } = made
  const typed = densityTyped(line)
  const density = typed ?? usualDensity(kind, form)
  const isRead = line.labelRead === 'on'
  await addIngredient(tx, {
    id,
    cafeId: actor.cafeId,
    name,
    kind,
    form,
    microdensity: density === null ? null : Math.round(density * 1_000_000),
    densityIsAssumed: typed === null && density !== null,
    isMilkOrPlantDrink: kind === 'milk',
    labelReadAt: isRead ? world.now() : null,
    labelReadById: isRead ? actor.userId : null,
    createdAt: world.now(),
  })
  await mark(world, tx, actor, id, line.contains ?? [])
  await noteAct(world, tx, actor, {
    act: 'ingredient-added',
    subjectKind: 'ingredient',
    subjectId: id,
    detail: { name, labelRead: isRead },
  })
}

/** What a line says of a label that nobody had read; one that was read is corrected in the store alone. */
async function readLabel(world: World, tx: Tx, actor: Actor, there: IngredientCardRow, line: TrialLineSent) {
  const named = line.contains ?? []
  if (there.labelReadAt !== null || (!line.labelRead && named.length === 0)) return
  const kept = there.allergens.filter(({ allergen }) => !named.includes(allergen))
  await clearAllergenMarks(tx, actor.cafeId, there.id)
  const marks = [...kept.map(({ allergen, state }) => ({ allergen, state })), ...contained(named)]
  await addAllergenMarks(
    tx,
    marks.map((one) => ({ ...one, id: world.id(), cafeId: actor.cafeId, ingredientId: there.id })),
  )
  const before = { row: there, marks: there.allergens, read: false }
  await tellLabelChange(world, tx, actor, there.id, before, { row: there, marks, read: line.labelRead === 'on' })
  if (line.labelRead) await setLabelRead(tx, actor.cafeId, [there.id], world.now(), actor.userId)
  await noteAct(world, tx, actor, {
    act: 'ingredient-corrected',
    subjectKind: 'ingredient',
    subjectId: there.id,
    detail: { name: there.name, labelRead: line.labelRead === 'on' },
  })
}

const contained = (named: readonly string[]) => [...new Set(named)].map((allergen) => ({ allergen, state: 'contains' }))

async function mark(world: World, tx: Tx, { cafeId }: Actor, ingredientId: string, named: readonly string[]) {
  await addAllergenMarks(
    tx,
    contained(named).map((one) => ({ ...one, id: world.id(), cafeId, ingredientId })),
  )
}

/** Looks at the price on a line. @returns what will write it; null where none was typed */
async function pricing(
  world: World,
  tx: Tx,
  actor: Cook,
  of: {
    readonly line: TrialLineSent
    readonly ingredient: { readonly id: string; readonly name: string }
    readonly density: number | null
    /** it never had a price */
    readonly first: boolean
  },
): Promise<Result<Write | null, PassingRefusal>> {
  const { price: typed, pack, packUnit = 'g' } = of.line
  if (!typed || !pack) return ok(null)
  if (!(await stillCountsIn(tx, actor))) return no('currency-changed')
  const { timeZone, currencyDigits } = await requireCafe(tx, actor.cafeId)
  const price = readNumber(typed, moneyField(currencyDigits))
  if (!price.ok) return no('price-unread')
  const grams = gramsOf(pack.value, packUnit, of.density)
  const packMg = grams.ok ? milligramsOf(grams.value) : null
  if (!packMg?.ok) return no('pack-unweighable')
  const today = dayIn(world.now(), timeZone)
  const entry = {
    ingredient: of.ingredient,
    packMg: packMg.value,
    sent: { price: price.value, pack, packUnit, note: undefined },
    day: today,
    today,
    currencyDigits,
    first: of.first,
  }
  return ok(() => writePrice(world, tx, actor, entry))
}
