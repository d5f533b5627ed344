import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import { addWeighing, findTrial } from '@/lib/db/trials'
import type { WeighingSent } from '@/lib/forms/ladder-form'
import { noteAct, type Actor, type World } from '../world'

/** Keeps what the scale showed when somebody built a trial. Sending it again adds nothing. */
export async function keepWeighing(
  world: World,
  actor: Actor,
  trialId: string,
  sent: WeighingSent,
): Promise<Result<null, 'gone'>> {
  return inTransaction(world, async (tx) => {
    if (!(await findTrial(tx, actor.cafeId, trialId))) return no('gone')
    const { cafeId, userId } = actor
    const { key, glasses } = sent
    const weights = JSON.stringify(sent.weights)
    const fresh = await addWeighing(tx, {
      id: world.id(),
      cafeId,
      trialId,
      key,
      glasses,
      weights,
      at: world.now(),
      byId: userId,
    })
    if (fresh)
      await noteAct(world, tx, actor, {
        act: 'trial-weighed',
        subjectKind: 'trial',
        subjectId: trialId,
        detail: { glasses },
      })
    return ok(null)
  })
}
