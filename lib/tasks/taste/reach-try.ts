import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import { findPhoneTry, markPhoneTry } from '@/lib/db/phone-tries'
import { noteTaster } from './taster-diary'
import type { World } from '../world'

/** A phone came by the try-out address: it can reach this machine. The first time counts. */
export async function reachTry(world: World, token: string): Promise<Result<{ readonly reached: true }, 'not-there'>> {
  return inTransaction(world, async (tx) => {
    const attempt = await findPhoneTry(tx, token)
    if (!attempt) return no('not-there')
    if (attempt.reachedAt) return ok({ reached: true })

    const at = world.now()
    await markPhoneTry(tx, attempt.id, at)
    await noteTaster(world, tx, {
      cafeId: attempt.cafeId,
      at,
      act: 'phone-reached',
      subjectKind: 'panel',
      subjectId: attempt.panelId,
    })
    return ok({ reached: true })
  })
}
