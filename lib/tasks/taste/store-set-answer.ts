import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { wasNoted } from '@/lib/db/audit'
import { findAttribute } from '@/lib/db/scores'
import { addSetAnswer, changeSetAnswer, findSetAnswers, keepLateAnswer, type SetAnswerRow } from '@/lib/db/sets'
import type { SetMessage } from '@/lib/forms/score-form'
import { roomOfQuestion } from '@/lib/panel/kinds/kinds'
import { readSetAnswer } from '@/lib/panel/kinds/set-kind'
import { atSet, type SetRefusal } from './at-set'
import type { World } from '../world'

type AnswerMessage = Extract<SetMessage, { readonly act: 'answer' }>

/** What stands in the book now: the answer sent, or a newer one that was there already. */
export type StoredSetAnswer = { readonly answer: readonly number[]; readonly revision: number }

export type SetAnswerRefusal = SetRefusal | 'no-such-attribute' | 'no-such-answer' | 'locked' | 'kept-late'

/**
 * Stores the answer of one seat about one set, whole or not at all. As with a score, sending it again is harmless, an older
 * revision never overwrites a newer one, and after closing it is kept apart as late and does not count.
 */
export async function storeSetAnswer(
  world: World,
  browser: string | null,
  message: AnswerMessage,
): Promise<Result<StoredSetAnswer, SetAnswerRefusal>> {
  return atSet(world, browser, message, async ({ tx, at, seat, set, closed, gone, note }) => {
    const { cafeId } = seat
    const attribute = await findAttribute(tx, cafeId, seat.panelId, message.attribute, 'set')
    const room = attribute && roomOfQuestion(attribute)
    if (!attribute || !room) return no('no-such-attribute')
    if (!room.isAnswer(attribute, set.positions, message.answer)) return no('no-such-answer')

    const given = await findSetAnswers(tx, cafeId, set.id)
    const stands = given.find(({ attributeId }) => attributeId === attribute.id)
    const answer = stands && { answer: readSetAnswer(stands.answer) ?? [], revision: stands.revision }
    if (answer && stands.key === message.key) return ok(answer)
    if (gone) return no(gone)
    if (answer && stands.revision >= message.revision) return ok(answer)
    if (set.lockedAt) return no('locked')

    const { revision, key } = message
    const row: SetAnswerRow = {
      id: world.id(),
      cafeId,
      setId: set.id,
      attributeId: attribute.id,
      answer: JSON.stringify(message.answer),
      revision,
      key,
      source: 'phone',
      enteredById: null,
      at,
    }
    const detail = { attribute: message.attribute, revision }
    if (closed) {
      if (await keepLateAnswer(tx, row)) await note('set-answer-kept-late', detail)
      return no('kept-late')
    }
    if (stands) {
      await changeSetAnswer(tx, stands.id, row)
      if (!(await wasNoted(tx, cafeId, set.id, 'set-answer-changed'))) await note('set-answer-changed', detail)
    } else {
      await addSetAnswer(tx, row)
      if (given.length === 0) await note('set-answered', detail)
    }
    return ok({ answer: message.answer, revision })
  })
}
