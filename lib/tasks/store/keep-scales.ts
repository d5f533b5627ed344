import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { findHouseScales, setHouseScales } from '@/lib/db/cafes'
import { inTransaction } from '@/lib/db/engine/transaction'
import type { ScalesSent } from '@/lib/forms/scales-form'
import { isStale, scalesMark, type OpenedWith } from '../opened-with'
import { noteAct, type Actor, type World } from '../world'

/** Says what the house weighs on: tolerances and what can be weighed at all follow from it. What was weighed keeps what it was held against. */
export async function keepScales(
  world: World,
  actor: Actor,
  sent: ScalesSent,
  opened: OpenedWith | null,
): Promise<Result<null, 'saved-elsewhere'>> {
  return inTransaction(world, async (tx) => {
    if (isStale(opened, scalesMark(await findHouseScales(tx, actor.cafeId)))) return no('saved-elsewhere')
    const said = {
      doseScaleName: sent.doseName ?? null,
      doseScaleMg: milligrams(sent.doseDivision),
      pourScaleName: sent.pourName ?? null,
      pourScaleMg: milligrams(sent.pourDivision),
    }
    await setHouseScales(tx, actor.cafeId, said)
    await noteAct(world, tx, actor, {
      act: 'scales-said',
      subjectKind: 'cafe',
      subjectId: actor.cafeId,
      detail: { doses: sent.doseDivision ?? 'not said', pours: sent.pourDivision ?? 'not said' },
    })
    return ok(null)
  })
}

const milligrams = (grams: number | undefined) => (grams === undefined ? null : Math.round(grams * 1000))
