import 'server-only'
import { momentOf } from '@/lib/base/zone-time'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import { findIngredient } from '@/lib/db/ingredients'
import { addPack, findPack, findPackByKey, setPackDone } from '@/lib/db/packs'
import type { PackSent } from '@/lib/forms/pack-form'
import { noteAct, type Actor, type World } from '../world'
import { findHouseIngredients } from './house-ingredients'

type Opener = Actor & { readonly cafe: { readonly timeZone: string } }

export type PackRefusal = 'gone' | 'opened-no-time' | 'discard-no-time' | 'not-yet' | 'discard-too-early'

/** A clock on the wall may run this far ahead of the computer's. */
const AHEAD_MS = 5 * 60_000

/**
 * Opens a pack of an ingredient. It is thrown away by the earlier of two: what the house allows it from its opening, and what was
 * typed; by neither where neither is said. Sent again it opens no second one.
 *
 * @param reads  may also open what no house recipe is made of
 * @returns      the pack's id
 */
export async function openPack(
  world: World,
  actor: Opener,
  sent: PackSent,
  reads: boolean,
): Promise<Result<string, PackRefusal>> {
  const { timeZone } = actor.cafe
  return inTransaction(world, async (tx) => {
    const { cafeId, userId } = actor
    const before = await findPackByKey(tx, cafeId, sent.key)
    if (before) return ok(before.id)
    const ingredient = await findIngredient(tx, cafeId, sent.ingredient)
    if (!ingredient || ingredient.archivedAt !== null) return no('gone')
    if (!reads && !(await findHouseIngredients(tx, cafeId)).has(ingredient.id)) return no('gone')
    const now = world.now()
    const openedAt = sent.openedAt === undefined ? now : momentOf(sent.openedAt, timeZone)
    if (openedAt === null) return no('opened-no-time')
    if (openedAt.getTime() > now.getTime() + AHEAD_MS) return no('not-yet')
    const typed = sent.discardAt === undefined ? null : momentOf(sent.discardAt, timeZone)
    if (sent.discardAt !== undefined && typed === null) return no('discard-no-time')
    if (typed !== null && typed <= openedAt) return no('discard-too-early')
    const id = world.id()
    const discardAt = earlier(typed, limitOf(openedAt, ingredient.openHours))
    const mark = sent.mark === undefined || sent.mark === '' ? null : sent.mark
    const row = {
      id,
      cafeId,
      ingredientId: ingredient.id,
      key: sent.key,
      mark,
      openedAt,
      openedById: userId,
      discardAt,
    }
    await addPack(tx, row)
    await noteAct(world, tx, actor, {
      act: 'pack-opened',
      subjectKind: 'ingredient',
      subjectId: ingredient.id,
      detail: { name: ingredient.name, ...(mark === null ? {} : { mark }) },
    })
    return ok(id)
  })
}

const limitOf = (openedAt: Date, hours: number | null) =>
  hours === null ? null : new Date(openedAt.getTime() + hours * 3_600_000)

function earlier(a: Date | null, b: Date | null): Date | null {
  if (a === null || b === null) return a ?? b
  return a < b ? a : b
}

/** How a pack ends. */
export type PackEnd = 'used-up' | 'thrown-away'

/** A pack is used up, or what was left of it thrown away: it is listed no more. @param reads  as for `openPack` */
export async function finishPack(
  world: World,
  actor: Actor,
  packId: string,
  end: PackEnd,
  reads: boolean,
): Promise<Result<null, 'gone'>> {
  return inTransaction(world, async (tx) => {
    const { cafeId, userId } = actor
    const pack = await findPack(tx, cafeId, packId)
    if (!pack || pack.doneAt !== null) return no('gone')
    if (!reads && !(await findHouseIngredients(tx, cafeId)).has(pack.ingredientId)) return no('gone')
    await setPackDone(tx, cafeId, packId, world.now(), userId)
    await noteAct(world, tx, actor, {
      act: `pack-${end}`,
      subjectKind: 'ingredient',
      subjectId: pack.ingredientId,
      detail: { name: pack.ingredient.name, ...(pack.mark === null ? {} : { mark: pack.mark }) },
    })
    return ok(null)
  })
}
