import 'server-only'
import { changeCafeFacts } from '@/lib/db/cafes'
import type { CafeSettings } from '@/lib/forms/account-form'
import { currencyDigits } from './set-up-house'
import { noteAct, type Actor, type World } from './world'

export async function changeCafe(world: World, actor: Actor, wanted: CafeSettings): Promise<void> {
  await world.db.$transaction(async (tx) => {
    await changeCafeFacts(tx, actor.cafeId, {
      name: wanted.cafeName,
      currency: wanted.currency,
      currencyDigits: currencyDigits(wanted.currency),
      allergenList: wanted.allergenList,
      timeZone: wanted.timeZone,
    })
    await noteAct(world, tx, actor, {
      act: 'cafe-changed',
      subjectKind: 'cafe',
      subjectId: actor.cafeId,
      detail: { currency: wanted.currency, allergenList: wanted.allergenList, timeZone: wanted.timeZone },
    })
  })
}
