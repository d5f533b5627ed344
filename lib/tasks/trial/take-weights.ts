import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import { findTrial, findWeighing, setWeighed } from '@/lib/db/trials'
import { scaleSheet } from '@/lib/drink/scale'
import { partsNamedIn, readStore } from '../store/reach-store'
import { noteAct, type Reader, type World } from '../world'
import { USUAL_SCALES } from '@/lib/drink/house-scales'
import { forToday } from './for-today'
import { buildAsOfItsDay } from './frozen-build'
import type { KeptBrew, KeptWeight } from './judge-weighing'
import { isOf } from './read-built'

export type TakeRefusal = 'gone' | 'frozen' | 'sheet-changed' | 'nothing-weighed'

/**
 * Makes what the scale showed the weights of a draft's own lines, for one glass: of grounds the dry dose, of all else what was
 * poured. A frozen trial stays as it is.
 *
 * @returns  how many lines took their weight
 */
export async function takeWeights(
  world: World,
  actor: Reader,
  trialId: string,
  weighingId: string,
): Promise<Result<number, TakeRefusal>> {
  return inTransaction(world, async (tx) => {
    const trial = await findTrial(tx, actor.cafeId, trialId)
    const row = trial && (await findWeighing(tx, actor.cafeId, trialId, weighingId))
    if (!row) return no('gone')
    if (trial.frozenAt !== null) return no('frozen')
    const store = await readStore(tx, actor.cafeId, world.now(), partsNamedIn([trial]))
    const build = buildAsOfItsDay(trial, store, actor.cafe)
    const { steps } = scaleSheet(build, 1)
    // a dose that was corrected for the batch of that day is what this line asked for, too
    const corrected = scaleSheet(build, 1, forToday(trial, store, USUAL_SCALES)).steps
    const asked = (one: KeptWeight) =>
      [steps, corrected].some((sheet) => isOf(one, one.position - 1, sheet[one.position - 1] ?? NO_STEP, row.glasses))
    const weights = JSON.parse(row.weights) as KeptWeight[]
    const brewed = row.brew === null ? [] : (JSON.parse(row.brew) as KeptBrew[])
    // A line that asks for something else by now has not been weighed.
    if (!weights.every(asked)) return no('sheet-changed')
    let taken = 0
    for (const [place, line] of trial.lines.entries()) {
      const step = steps[place]
      const grams = step?.brew
        ? brewed.find(({ position }) => position === place + 1)?.dose
        : weights.find(({ position }) => position === place + 1)?.grams
      if (grams === undefined || grams === null) continue
      await setWeighed(tx, line.id, Math.round((grams * 1000) / row.glasses))
      taken += 1
    }
    if (taken === 0) return no('nothing-weighed')
    await noteAct(world, tx, actor, {
      act: 'weights-taken',
      subjectKind: 'trial',
      subjectId: trialId,
      detail: { lines: taken },
    })
    return ok(taken)
  })
}

const NO_STEP = { name: '', add: null }
