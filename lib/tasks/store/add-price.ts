import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { dayIn } from '@/lib/base/zone-time'
import type { Tx } from '@/lib/db/engine/client'
import { inTransaction } from '@/lib/db/engine/transaction'
import { requireCafe } from '@/lib/db/cafes'
import { findIngredient } from '@/lib/db/ingredients'
import { addPrice, findPricesOn } from '@/lib/db/prices'
import { gramsOf } from '@/lib/drink/unit'
import type { Currency } from '@/lib/forms/fields'
import type { PriceSent } from '@/lib/forms/ingredient-form'
import { milligramsOf, type AmountRefusal } from '../milligrams'
import { stillCountsIn } from './still-counts-in'
import { tellPriceChange } from './upstream'
import { noteAct, type Actor, type World } from '../world'

export type PriceRefusal = 'gone' | 'density-missing' | 'not-yet' | 'currency-changed' | AmountRefusal

/** Adds what a pack costs from a day on. Earlier prices stay as they were. */
export async function addPriceOf(
  world: World,
  actor: Actor & { readonly cafe: Currency },
  ingredientId: string,
  sent: PriceSent,
): Promise<Result<null, PriceRefusal>> {
  return inTransaction(world, async (tx) => {
    if (!(await stillCountsIn(tx, actor))) return no('currency-changed')
    const { timeZone, currencyDigits } = await requireCafe(tx, actor.cafeId)
    const ingredient = await findIngredient(tx, actor.cafeId, ingredientId)
    if (!ingredient) return no('gone')
    const density = ingredient.microdensity === null ? null : ingredient.microdensity / 1_000_000
    const grams = gramsOf(sent.pack.value, sent.packUnit, density)
    if (!grams.ok) return no('density-missing')
    const pack = milligramsOf(grams.value)
    if (!pack.ok) return pack
    const today = dayIn(world.now(), timeZone)
    const day = sent.since ?? today
    if (day > today) return no('not-yet', { today })
    const first = ingredient.prices.length === 0
    await writePrice(world, tx, actor, { ingredient, packMg: pack.value, sent, day, today, currencyDigits, first })
    return ok(null)
  })
}

/** The row and its line in the diary, once all of it was found good. */
export async function writePrice(
  world: World,
  tx: Tx,
  actor: Actor,
  entry: {
    readonly ingredient: { readonly id: string; readonly name: string }
    readonly packMg: number
    readonly sent: Pick<PriceSent, 'price' | 'pack' | 'packUnit' | 'usable' | 'note'>
    readonly day: string
    readonly today: string
    readonly currencyDigits: number
    /** true where no price stood there before, struck out or not */
    readonly first: boolean
  },
): Promise<void> {
  const { ingredient, packMg, sent, day, today, currencyDigits, first } = entry
  const ingredientId = ingredient.id
  const counting = async () => (await findPricesOn(tx, actor.cafeId, [ingredientId], today))[0]?.price
  const before = await counting()
  await addPrice(tx, {
    id: world.id(),
    cafeId: actor.cafeId,
    ingredientId,
    packMg,
    packTyped: sent.pack.typed,
    packUnit: sent.packUnit,
    priceMinor: Math.round(sent.price * 10 ** currencyDigits),
    usableBp: Math.round((sent.usable ?? 100) * 100),
    ...heldFrom(day),
    note: sent.note ?? null,
    createdAt: world.now(),
    createdById: actor.userId,
  })
  const change = { ingredientId, before, after: await counting(), currencyDigits, first }
  await tellPriceChange(world, tx, actor, change)
  await noteAct(world, tx, actor, {
    act: 'price-added',
    subjectKind: 'ingredient',
    subjectId: ingredientId,
    detail: { name: ingredient.name, price: sent.price, pack: `${sent.pack.typed} ${sent.packUnit}`, day },
  })
}

/** A day as a price row keeps it: `day` counts, `since` is how the first version kept it. */
export const heldFrom = (day: string) => ({ day, since: new Date(`${day}T00:00:00Z`) })
