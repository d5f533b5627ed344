import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import { addWeighing, findTrial, findWeighingByKey } from '@/lib/db/trials'
import type { WeighingSent } from '@/lib/forms/ladder-form'
import type { ForToday } from '@/lib/drink/for-today'
import { partsNamedIn, readStore } from '../store/reach-store'
import { noteAct, type Reader, type World } from '../world'
import { findScales } from '../store/house-scales'
import { forToday } from './for-today'
import { buildAsOfItsDay } from './frozen-build'
import { judgeWeighing } from './judge-weighing'

/**
 * Keeps what the scale showed when somebody built a trial, and whether it was within tolerance. Sending it again adds nothing,
 * and is answered as it was kept.
 *
 * @param shown  the doses that were asked for, where they are not those of the trial’s own page
 * @returns  within: as `Weighing.within`
 */
export async function keepWeighing(
  world: World,
  actor: Reader,
  trialId: string,
  sent: WeighingSent,
  shown: ForToday | null = null,
): Promise<Result<{ readonly within: boolean | null }, 'gone'>> {
  return inTransaction(world, async (tx) => {
    const trial = await findTrial(tx, actor.cafeId, trialId)
    if (!trial) return no('gone')
    const { cafeId, userId } = actor
    const { key, glasses } = sent
    const kept = await findWeighingByKey(tx, cafeId, key)
    if (kept) return ok({ within: kept.within })
    const store = await readStore(tx, cafeId, world.now(), partsNamedIn([trial]))
    const today = shown ?? forToday(trial, store, await findScales(tx, cafeId))
    const judged = judgeWeighing(buildAsOfItsDay(trial, store, actor.cafe), today, sent)
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
