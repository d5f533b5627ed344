import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import { findRecipe } from '@/lib/db/recipes'
import { findSizePrice, putSizePrice, removeSizePrice } from '@/lib/db/size-prices'
import { findVessel } from '@/lib/db/vessels'
import type { Currency } from '@/lib/forms/fields'
import type { SizePriceSent } from '@/lib/forms/recipe-form'
import { isStale, sizePriceMark, type OpenedWith } from '../opened-with'
import { stillCountsIn } from '../store/still-counts-in'
import { noteAct, type Actor, type World } from '../world'

export type SizePriceRefusal = 'gone' | 'currency-changed' | 'saved-elsewhere'

/**
 * What a size of a drink costs the guest, tax included; without a price it has none any more.
 *
 * @param vesselId  a vessel of the store that is not put aside
 */
export async function keepSizePrice(
  world: World,
  actor: Actor & { readonly cafe: Currency },
  of: { readonly recipeId: string; readonly vesselId: string },
  { price }: Pick<SizePriceSent, 'price'>,
  opened: OpenedWith | null,
): Promise<Result<null, SizePriceRefusal>> {
  const { recipeId, vesselId } = of
  return inTransaction(world, async (tx) => {
    if (!(await stillCountsIn(tx, actor))) return no('currency-changed')
    const recipe = await findRecipe(tx, actor.cafeId, recipeId)
    const vessel = await findVessel(tx, actor.cafeId, vesselId)
    if (!recipe || !vessel || vessel.archivedAt !== null) return no('gone')
    const before = await findSizePrice(tx, actor.cafeId, recipeId, vesselId)
    if (isStale(opened, sizePriceMark(before?.priceMinor ?? null, actor.cafe))) return no('saved-elsewhere')
    if (price === undefined) await removeSizePrice(tx, actor.cafeId, recipeId, vesselId)
    else
      await putSizePrice(tx, {
        id: world.id(),
        cafeId: actor.cafeId,
        recipeId,
        vesselId,
        priceMinor: Math.round(price * 10 ** actor.cafe.currencyDigits),
        changedAt: world.now(),
        changedById: actor.userId,
      })
    await noteAct(world, tx, actor, {
      act: price === undefined ? 'size-price-removed' : 'size-priced',
      subjectKind: 'recipe',
      subjectId: recipeId,
      detail: { size: vessel.name },
    })
    return ok(null)
  })
}
