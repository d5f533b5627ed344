import 'server-only'
import { hashToken } from '@/lib/auth/link-token'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import { findHearsBack, findHomeSheet, linkHomeSheet } from '@/lib/db/home-sheets'
import { noteAct, type Actor, type World } from '../world'

/**
 * A link that shows a sheet to whoever holds it, and takes their answer. The one made before opens nothing from then on.
 *
 * @returns the token, kept only as a fingerprint
 */
export async function makeHomeLink(
  world: World,
  actor: Actor,
  sheetId: string,
): Promise<Result<string, 'off' | 'gone'>> {
  const token = world.token()
  return inTransaction(world, async (tx) => {
    if (!(await findHearsBack(tx, actor.cafeId))) return no('off')
    const sheet = await findHomeSheet(tx, actor.cafeId, { id: sheetId })
    if (!sheet || !(await linkHomeSheet(tx, actor.cafeId, sheetId, hashToken(token)))) return no('gone')
    await noteAct(world, tx, actor, {
      act: 'home-link-made',
      subjectKind: 'recipe',
      subjectId: sheet.recipeId,
      detail: { sheet: sheet.version },
    })
    return ok(token)
  })
}

/** Ends the link of a sheet; the sheet itself stays. Where there is none, nothing is written. */
export async function endHomeLink(world: World, actor: Actor, sheetId: string): Promise<void> {
  await inTransaction(world, async (tx) => {
    const sheet = await findHomeSheet(tx, actor.cafeId, { id: sheetId })
    if (!sheet?.tokenHash || !(await linkHomeSheet(tx, actor.cafeId, sheetId, null))) return
    await noteAct(world, tx, actor, {
      act: 'home-link-withdrawn',
      subjectKind: 'recipe',
      subjectId: sheet.recipeId,
      detail: { sheet: sheet.version },
    })
  })
}
