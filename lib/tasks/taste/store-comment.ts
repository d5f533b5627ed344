import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { changeServing } from '@/lib/db/scores'
import { atServing, type AtServing, type ServingRefusal } from './at-serving'
import { noteTaster } from './taster-diary'
import type { World } from '../world'

export type StoredComment = { readonly revision: number }

/** Stores what a taster wrote about one cup; an older revision never overwrites a newer one. */
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

    await changeServing(tx, serving.id, {
      comment: message.comment.trim(),
      commentRevision: message.revision,
      commentSource: 'phone',
    })
    await noteTaster(world, tx, {
      cafeId: seat.cafeId,
      at,
      act: 'comment-stored',
      subjectKind: 'serving',
      subjectId: serving.id,
      detail: { revision: message.revision },
    })
    return ok({ revision: message.revision })
  })
}
