import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import type { Tx } from '@/lib/db/engine/client'
import { inTransaction } from '@/lib/db/engine/transaction'
import { findRecipe } from '@/lib/db/recipes'
import { findSizePrice, putSizePrice, removeSizePrice } from '@/lib/db/size-prices'
import { addVessel, findVessel, findVesselByName } from '@/lib/db/vessels'
import { usualVessel } from '@/lib/drink/sizes'
import type { Currency } from '@/lib/forms/fields'
import type { SizePriceSent } from '@/lib/forms/recipe-form'
import { isStale, sizePriceMark, type OpenedWith } from '../opened-with'
import { stillCountsIn } from '../store/still-counts-in'
import { noteAct, type Actor, type World } from '../world'

export type SizePriceRefusal = 'gone' | 'currency-changed' | 'saved-elsewhere'

/** A usual size gets its price: its cup is entered in the store, its brim as its name says, unless one of that name stands there. */
export async function priceUsualSize(
  world: World,
  actor: Actor & { readonly cafe: Currency },
  { recipeId, ounces }: { readonly recipeId: string; readonly ounces: number },
  { price }: Pick<SizePriceSent, 'price'>,
): Promise<Result<null, SizePriceRefusal>> {
  if (price === undefined) return ok(null)
  return inTransaction(world, async (tx) => {
    if (!(await stillCountsIn(tx, actor))) return no('currency-changed')
    const recipe = await findRecipe(tx, actor.cafeId, recipeId)
    if (!recipe) return no('gone')
    const { name, brimMl } = usualVessel(ounces)
    const there = await findVesselByName(tx, actor.cafeId, name)
    if (there && there.archivedAt !== null) return no('gone')
    const vesselId = there?.id ?? world.id()
    const of = { subjectKind: 'vessel', subjectId: vesselId, detail: { name, brimMl } }
    if (!there) {
      const row = { name, brimUl: Math.round(brimMl * 1000), isClear: false, createdAt: world.now() }
      await addVessel(tx, { id: vesselId, cafeId: actor.cafeId, ...row })
      await noteAct(world, tx, actor, { act: 'vessel-added', ...of })
    }
    await setPrice(world, tx, actor, { recipeId, vesselId, price })
    await noteAct(world, tx, actor, {
      act: 'size-priced',
      subjectKind: 'recipe',
      subjectId: recipeId,
      detail: { size: name },
    })
    return ok(null)
  })
}

interface Priced {
  readonly recipeId: string
  readonly vesselId: string
  readonly price: number
}

async function setPrice(
  world: World,
  tx: Tx,
  { cafeId, userId, cafe }: Actor & { readonly cafe: Currency },
  { recipeId, vesselId, price }: Priced,
): Promise<void> {
  const priceMinor = Math.round(price * 10 ** cafe.currencyDigits)
  const row = { id: world.id(), cafeId, recipeId, vesselId, priceMinor }
  await putSizePrice(tx, { ...row, changedAt: world.now(), changedById: userId })
}

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
    else await setPrice(world, tx, actor, { recipeId, vesselId, price })
    await noteAct(world, tx, actor, {
      act: price === undefined ? 'size-price-removed' : 'size-priced',
      subjectKind: 'recipe',
      subjectId: recipeId,
      detail: { size: vessel.name },
    })
    return ok(null)
  })
}
