import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { dayIn } from '@/lib/base/zone-time'
import { inTransaction } from '@/lib/db/engine/transaction'
import { requireCafe } from '@/lib/db/cafes'
import { findPrice, findPricesOn, setPriceStruck } from '@/lib/db/prices'
import { tellPriceChange } from './upstream'
import { noteAct, type Actor, type World } from '../world'

/** Strikes out a mistyped price: it stays to be read and counts no more. Doing it again changes nothing. */
export async function strikePrice(
  world: World,
  actor: Actor,
  ingredientId: string,
  priceId: string,
): Promise<Result<null, 'gone'>> {
  return inTransaction(world, async (tx) => {
    const price = await findPrice(tx, actor.cafeId, ingredientId, priceId)
    if (!price) return no('gone')
    const { currencyDigits, timeZone } = await requireCafe(tx, actor.cafeId)
    const today = dayIn(world.now(), timeZone)
    const counting = async () => (await findPricesOn(tx, actor.cafeId, [ingredientId], today))[0]?.price
    const before = await counting()
    if (await setPriceStruck(tx, actor.cafeId, priceId, world.now(), actor.userId)) {
      const change = { ingredientId, before, after: await counting(), currencyDigits, first: false }
      await tellPriceChange(world, tx, actor, change)
      await noteAct(world, tx, actor, {
        act: 'price-struck-out',
        subjectKind: 'ingredient',
        subjectId: ingredientId,
        detail: {
          price: price.priceMinor / 10 ** currencyDigits,
          pack: `${price.packTyped} ${price.packUnit}`,
          day: price.day,
        },
      })
    }
    return ok(null)
  })
}
