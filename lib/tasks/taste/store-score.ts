import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { wasNoted } from '@/lib/db/audit'
import { addScore, changeScore, findAnswers, findAttribute, keepLateScore, type ScoreRow } from '@/lib/db/scores'
import type { ScoreMessage } from '@/lib/forms/score-form'
import { isAnswer, questionOf } from '@/lib/panel/question'
import { atServing, type ServingRefusal } from './at-serving'
import { noteTaster } from './taster-diary'
import type { World } from '../world'

/** What stands in the book now: the answer sent, or a newer one that was there already. */
export type StoredAnswer = { readonly value: number; readonly revision: number }

export type ScoreRefusal = ServingRefusal | 'no-such-attribute' | 'off-the-scale' | 'locked' | 'kept-late'

/**
 * Stores one answer of one seat about one cup. Sending it again is harmless; an older revision never overwrites a
 * newer one; after closing it is kept apart as late and does not count. The diary has a line when a cup is first scored and
 * one when its scores are changed, however often that is.
 */
export async function storeScore(
  world: World,
  browser: string | null,
  score: ScoreMessage,
): Promise<Result<StoredAnswer, ScoreRefusal>> {
  return atServing(world, browser, score, async ({ tx, at, seat, serving, closed, gone }) => {
    const { cafeId } = seat
    const attribute = await findAttribute(tx, cafeId, seat.panelId, score.attribute, 'serving')
    if (!attribute) return no('no-such-attribute')
    if (!isAnswer(questionOf(attribute), score.value)) return no('off-the-scale')

    const given = await findAnswers(tx, cafeId, serving.id)
    const stands = given.find(({ attributeId }) => attributeId === attribute.id)
    const answer = stands && { value: stands.value, revision: stands.revision }
    if (answer && stands.key === score.key) return ok(answer)
    if (gone) return no(gone)
    if (answer && stands.revision >= score.revision) return ok(answer)
    if (serving.lockedAt) return no('locked')

    const { value, revision, key } = score
    const row: ScoreRow = {
      id: world.id(),
      cafeId,
      servingId: serving.id,
      attributeId: attribute.id,
      value,
      revision,
      key,
      at,
    }
    const note = (act: string) =>
      noteTaster(world, tx, {
        cafeId,
        at,
        act,
        subjectKind: 'serving',
        subjectId: serving.id,
        detail: { attribute: score.attribute, revision },
      })

    if (closed) {
      if (await keepLateScore(tx, row)) await note('score-kept-late')
      return no('kept-late')
    }
    if (stands) {
      await changeScore(tx, stands.id, { value, revision, key, at })
      if (!(await wasNoted(tx, cafeId, serving.id, 'score-changed'))) await note('score-changed')
    } else {
      await addScore(tx, row)
      if (given.length === 0) await note('score-stored')
    }
    return ok({ value, revision })
  })
}
