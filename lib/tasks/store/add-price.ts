import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { dayIn } from '@/lib/base/zone-time'
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
    const now = world.now()
    const today = dayIn(now, timeZone)
    const day = sent.since ?? today
    if (day > today) return no('not-yet', { today })
    const counting = async () => (await findPricesOn(tx, actor.cafeId, [ingredientId], today))[0]?.price
    const before = await counting()
    await addPrice(tx, {
      id: world.id(),
      cafeId: actor.cafeId,
      ingredientId,
      packMg: pack.value,
      packTyped: sent.pack.typed,
      packUnit: sent.packUnit,
      priceMinor: Math.round(sent.price * 10 ** currencyDigits),
      usableBp: Math.round((sent.usable ?? 100) * 100),
      ...heldFrom(day),
      note: sent.note ?? null,
      createdAt: now,
      createdById: actor.userId,
    })
    const first = ingredient.prices.length === 0
    const change = { ingredientId, before, after: await counting(), currencyDigits, first }
    await tellPriceChange(world, tx, actor, change)
    await noteAct(world, tx, actor, {
      act: 'price-added',
      subjectKind: 'ingredient',
      subjectId: ingredientId,
      detail: { name: ingredient.name, price: sent.price, pack: `${sent.pack.typed} ${sent.packUnit}`, day },
    })
    return ok(null)
  })
}

/** A day as a price row keeps it: `day` counts, `since` is how the first version kept it. */
export const heldFrom = (day: string) => ({ day, since: new Date(`${day}T00:00:00Z`) })
