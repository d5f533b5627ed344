import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { wasNoted } from '@/lib/db/audit'
import { keepReplaced } from '@/lib/db/paper'
import { changeServing } from '@/lib/db/scores'
import { isOfBefore } from '@/lib/panel/blind'
import { atServing, type AtServing, type ServingRefusal } from './at-serving'
import { noteTaster } from './taster-diary'
import type { World } from '../world'

export type StoredComment = { readonly revision: number }

/**
 * Stores what a taster wrote about one cup; an older revision never overwrites a newer one. What was written before the seat
 * went on on another phone is kept beside what replaces it.
 */
export async function storeComment(
  world: World,
  browser: string | null,
  message: AtServing & { readonly comment: string; readonly revision: number },
): Promise<Result<StoredComment, ServingRefusal | 'locked' | 'panel-closed'>> {
  return atServing(world, browser, message, async ({ tx, at, seat, serving, closed, gone }) => {
    const isKept = serving.commentRevision >= message.revision
    if (gone) return isKept && serving.commentSource === 'phone' ? ok({ revision: serving.commentRevision }) : no(gone)
    if (isKept) return ok({ revision: serving.commentRevision })
    if (serving.lockedAt) return no('locked')
    if (closed) return no('panel-closed')

    if (isOfBefore(serving, seat.movedAt)) {
      await keepReplaced(tx, {
        id: world.id(),
        cafeId: seat.cafeId,
        servingId: serving.id,
        attributeId: null,
        comment: serving.comment ?? '',
        revision: serving.commentRevision,
        source: serving.commentSource === 'paper' ? 'paper' : 'phone',
        enteredById: null,
        at: serving.commentAt,
        replacedAt: at,
        replacedById: null,
      })
    }
    await changeServing(tx, serving.id, {
      comment: message.comment.trim(),
      commentAt: at,
      commentRevision: message.revision,
      commentSource: 'phone',
    })
    const act = serving.commentRevision === 0 ? 'comment-stored' : 'comment-changed'
    if (await wasNoted(tx, seat.cafeId, serving.id, act)) return ok({ revision: message.revision })
    await noteTaster(world, tx, {
      cafeId: seat.cafeId,
      at,
      act,
      subjectKind: 'serving',
      subjectId: serving.id,
      detail: { revision: message.revision },
    })
    return ok({ revision: message.revision })
  })
}
