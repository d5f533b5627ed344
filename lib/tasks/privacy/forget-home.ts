import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import type { Tx } from '@/lib/db/engine/client'
import { inTransaction } from '@/lib/db/engine/transaction'
import type { ForgottenMarks } from '@/lib/db/forgotten-marks'
import { findHomeAnswer, takeHomeNamesOut } from '@/lib/db/home-sheets'
import { noteAct, type Actor, type World } from '../world'

/**
 * Somebody who answered from home asked for it: takes out the name they signed with, and what they wrote if they asked for that.
 * How they liked it stays. Asked again it does nothing more.
 */
export async function forgetHome(
  world: World,
  marks: ForgottenMarks,
  actor: Actor,
  answerId: string,
  words: boolean,
): Promise<Result<null, 'gone'>> {
  return inTransaction(world, async (tx) => {
    const answer = await findHomeAnswer(tx, actor.cafeId, answerId)
    if (!answer) return no('gone')
    if ((await forgetHomeAnswers(tx, marks, { ids: [answerId], words })) === 0) return ok(null)
    await noteAct(world, tx, actor, {
      act: 'home-answer-forgotten',
      subjectKind: 'recipe',
      subjectId: answer.sheet.recipeId,
      detail: { words },
    })
    return ok(null)
  })
}

/** Inside the act's own transaction, the marks first: as in `forgetTasters`. @returns how many had something to take out */
export async function forgetHomeAnswers(
  tx: Tx,
  marks: ForgottenMarks,
  { ids, words }: { readonly ids: readonly string[]; readonly words: boolean },
): Promise<number> {
  marks.add(ids.map((id) => ({ of: 'home', id, words })))
  return takeHomeNamesOut(tx, ids, words)
}
