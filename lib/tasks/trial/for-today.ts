import 'server-only'
import type { TrialRow } from '@/lib/db/trials'
import type { CorrectedDose, ForToday, UnreadDose } from '@/lib/drink/for-today'
import type { Scales } from '@/lib/drink/house-scales'
import { densityOfPart } from '@/lib/drink/part'
import { refOf, type Store, type StorePart } from '../store/store-part'
import { todaysBatches, usedOn } from './todays-batches'

/**
 * What is otherwise beside the scale today than on a trial's sheet: doses of a batch that reads more than a degree otherwise,
 * doses that nobody can say of it, what a press of the pump on each bottle gives, and what the house weighs on.
 *
 * @param store  with all that the trial names, of today
 */
export function forToday(trial: TrialRow, store: Store, scales: Scales): ForToday {
  const todays = todaysBatches(trial, store)
  const corrected = todays.flatMap(({ key, batch, otherwise, dose }): [string, CorrectedDose][] =>
    batch !== null && otherwise?.dose === 'corrected'
      ? [[key, { batch: batch.number, grams: otherwise.grams, sheetGrams: dose }]]
      : [],
  )
  const unread = todays.flatMap(({ key, batch, otherwise, dose }): [string, UnreadDose][] =>
    batch !== null && otherwise?.dose === 'unknown' ? [[key, { batch: batch.number, sheetGrams: dose }]] : [],
  )
  const presses = trial.lines.flatMap((line): [string, number][] => {
    const part = store.get(refOf(usedOn(line, trial.costLevelId)))
    const press = part ? pressOf(part) : null
    return press === null ? [] : [[String(line.position), press]]
  })
  return {
    corrected: Object.fromEntries(corrected),
    unread: Object.fromEntries(unread),
    pressGrams: Object.fromEntries(presses),
    scales,
  }
}

/** g of one press, where ml and density were measured: of an assumed density nobody knows it. */
function pressOf(part: StorePart): number | null {
  const density = part.densityIsAssumed ? null : densityOfPart(part)
  return part.pumpMl == null || density === null ? null : part.pumpMl * density
}
