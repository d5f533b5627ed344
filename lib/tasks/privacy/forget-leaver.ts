import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import type { ForgottenMarks } from '@/lib/db/forgotten-marks'
import { releaseBrakesOf } from '@/lib/db/brakes'
import { findLeavers, forgetUser } from '@/lib/db/privacy'
import { endSessions } from '@/lib/db/sessions'
import { noteAct, type Actor, type World } from '../world'

/** Takes out the name, address and password of somebody who left. What they did stays in the diary, by "somebody who left". */
export async function forgetLeaver(
  world: World,
  marks: ForgottenMarks,
  actor: Actor,
  userId: string,
): Promise<Result<null, 'not-a-leaver'>> {
  return inTransaction(world, async (tx) => {
    const leaver = (await findLeavers(tx, actor.cafeId)).find((one) => one.userId === userId)
    if (!leaver) return no('not-a-leaver')
    marks.add([{ of: 'member', id: userId, words: false }])
    await forgetUser(tx, userId, world.now())
    await endSessions(tx, userId)
    await releaseBrakesOf(tx, leaver.email)
    await noteAct(world, tx, actor, { act: 'leaver-forgotten', subjectKind: 'user', subjectId: userId })
    return ok(null)
  })
}
