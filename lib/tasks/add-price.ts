import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { gramsOf } from '@/lib/drink/unit'
import { findIngredient } from '@/lib/db/ingredient-card'
import { addPrice } from '@/lib/db/ingredients'
import type { PriceSent } from '@/lib/forms/ingredient-form'
import { noteAct, type Actor, type World } from './world'

/** Adds what a pack costs from a day on. Earlier prices stay as they were. */
export async function addPriceOf(
  world: World,
  actor: Actor & { readonly cafe: { readonly currencyDigits: number } },
  ingredientId: string,
  sent: PriceSent,
): Promise<Result<null, 'gone' | 'density-missing'>> {
  return world.db.$transaction(async (tx) => {
    const ingredient = await findIngredient(tx, actor.cafeId, ingredientId)
    if (!ingredient) return no('gone')
    const density = ingredient.microdensity === null ? null : ingredient.microdensity / 1_000_000
    const grams = gramsOf(sent.pack.value, sent.packUnit, density)
    if (!grams.ok) return no('density-missing')
    const now = world.now()
    await addPrice(tx, {
      id: world.id(),
      cafeId: actor.cafeId,
      ingredientId,
      packMg: Math.round(grams.value * 1000),
      packTyped: sent.pack.typed,
      packUnit: sent.packUnit,
      priceMinor: Math.round(sent.price * 10 ** actor.cafe.currencyDigits),
      usableBp: Math.round((sent.usable ?? 100) * 100),
      since: sent.since ? new Date(`${sent.since}T00:00:00Z`) : now,
      note: sent.note ?? null,
      createdAt: now,
      createdById: actor.userId,
    })
    await noteAct(world, tx, actor, {
      act: 'price-added',
      subjectKind: 'ingredient',
      subjectId: ingredientId,
      detail: { name: ingredient.name, price: sent.price, pack: `${sent.pack.typed} ${sent.packUnit}` },
    })
    return ok(null)
  })
}
