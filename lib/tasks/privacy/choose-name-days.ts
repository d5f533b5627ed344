import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import type { ForgottenMarks } from '@/lib/db/forgotten-marks'
import { findNameDays, setNameDays } from '@/lib/db/privacy'
import { isStale, nameDaysMark, type OpenedWith } from '../opened-with'
import { noteAct, type Actor, type World } from '../world'
import { tidy } from './tidy'

/** Days that a new café keeps a taster's name; one that existed before this was asked keeps them until its owner chooses. */
export const USUAL_NAME_DAYS = 90

/** How long tasters' names are kept; 0: until somebody asks. Names past their time go at once. @returns how many went */
export async function chooseNameDays(
  world: World,
  marks: ForgottenMarks,
  actor: Actor,
  nameDays: number,
  opened: OpenedWith | null,
): Promise<Result<number, 'saved-elsewhere'>> {
  const chosen = await inTransaction(world, async (tx): Promise<Result<null, 'saved-elsewhere'>> => {
    if (isStale(opened, nameDaysMark(await findNameDays(tx, actor.cafeId)))) return no('saved-elsewhere')
    await setNameDays(tx, actor.cafeId, nameDays)
    const detail = { days: nameDays }
    await noteAct(world, tx, actor, { act: 'name-time-chosen', subjectKind: 'cafe', subjectId: actor.cafeId, detail })
    return ok(null)
  })
  return chosen.ok ? ok(await tidy(world, marks)) : chosen
}
