import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import { findHouseRecipe } from '@/lib/db/house-recipe'
import { addWeighing, findTrial, findWeighingByKey } from '@/lib/db/trials'
import type { WeighingSent } from '@/lib/forms/ladder-form'
import { partsNamedIn, readStore } from '../store/reach-store'
import { noteAct, type Reader, type World } from '../world'
import { buildAsOfItsDay } from './frozen-build'
import { judgeWeighing } from './judge-weighing'

/**
 * Keeps what the scale showed when somebody built a trial, and whether it was within tolerance. Sending it again adds nothing,
 * and is answered as it was kept.
 *
 * @returns  within: as `Weighing.within`
 */
export async function keepWeighing(
  world: World,
  actor: Reader,
  trialId: string,
  sent: WeighingSent,
): Promise<Result<{ readonly within: boolean | null }, 'gone'>> {
  return inTransaction(world, async (tx) => {
    const trial = await findTrial(tx, actor.cafeId, trialId)
    if (!trial) return no('gone')
    const { cafeId, userId } = actor
    const { key, glasses } = sent
    const kept = await findWeighingByKey(tx, cafeId, key)
    if (kept) return ok({ within: kept.within })
    const store = await readStore(tx, cafeId, world.now(), partsNamedIn([trial]))
    const judged = judgeWeighing(buildAsOfItsDay(trial, store, actor.cafe), sent)
    await addWeighing(tx, {
      id: world.id(),
      cafeId,
      trialId,
      key,
      glasses,
      weights: JSON.stringify(judged.weights),
      brew: judged.brew.length === 0 ? null : JSON.stringify(judged.brew),
      within: judged.within,
      at: world.now(),
      byId: userId,
    })
    await noteAct(world, tx, actor, {
      act: 'trial-weighed',
      subjectKind: 'trial',
      subjectId: trialId,
      detail: { glasses },
    })
    return ok({ within: judged.within })
  })
}

/** The same for who stands behind the bar: of a drink's house recipe alone. */
export async function keepBarWeighing(
  world: World,
  actor: Reader,
  recipeId: string,
  sent: WeighingSent,
): Promise<Result<{ readonly within: boolean | null }, 'gone'>> {
  const house = await findHouseRecipe(world.db, actor.cafeId, recipeId)
  return house ? keepWeighing(world, actor, house.trialId, sent) : no('gone')
}
