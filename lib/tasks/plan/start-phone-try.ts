import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import { findPanel } from '@/lib/db/panels'
import { addPhoneTry, findPhoneTryOf } from '@/lib/db/phone-tries'
import { noteAct, type Actor, type World } from '../world'

/** Puts up a page that waits for a phone to come by. @returns the try's id */
export async function startPhoneTry(world: World, actor: Actor, panelId: string): Promise<Result<string, 'not-found'>> {
  return inTransaction(world, async (tx) => {
    if (!(await findPanel(tx, actor.cafeId, panelId))) return no('not-found')
    const id = world.id()
    await addPhoneTry(tx, { id, cafeId: actor.cafeId, panelId, token: world.token(), createdAt: world.now() })
    await noteAct(world, tx, actor, { act: 'phone-try-started', subjectKind: 'panel', subjectId: panelId })
    return ok(id)
  })
}

export interface PhoneTryReading {
  readonly token: string
  readonly reachedAt: Date | null
}

export async function readPhoneTry(
  world: World,
  actor: Actor,
  panelId: string,
  tryId: string,
): Promise<PhoneTryReading | null> {
  const found = await findPhoneTryOf(world.db, actor.cafeId, panelId, tryId)
  return found && { token: found.token, reachedAt: found.reachedAt }
}
