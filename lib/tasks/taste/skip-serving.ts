import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { changeServing } from '@/lib/db/scores'
import type { SkipReason } from '@/lib/forms/score-form'
import { atServing, type AtServing, type ServingRefusal } from './at-serving'
import { noteTaster } from './taster-diary'
import type { World } from '../world'

/** Leaves a cup out, with a reason, and moves on. Answers given before stay in the book beside the skip. */
export async function skipServing(
  world: World,
  browser: string | null,
  message: AtServing & { readonly reason: SkipReason },
): Promise<Result<{ readonly skipped: true }, ServingRefusal | 'locked' | 'panel-closed' | 'in-a-set'>> {
  return atServing(world, browser, message, async ({ tx, at, seat, serving, closed, gone }) => {
    if (serving.setId !== null) return no('in-a-set')
    if (gone) return serving.skippedAt && serving.skipSource === 'phone' ? ok({ skipped: true }) : no(gone)
    if (serving.skippedAt) return ok({ skipped: true })
    if (serving.lockedAt) return no('locked')
    if (closed) return no('panel-closed')

    await changeServing(tx, serving.id, {
      skippedAt: at,
      lockedAt: at,
      skipReason: message.reason,
      skipSource: 'phone',
    })
    await noteTaster(world, tx, {
      cafeId: seat.cafeId,
      at,
      act: 'cup-skipped',
      subjectKind: 'serving',
      subjectId: serving.id,
      detail: { reason: message.reason },
    })
    return ok({ skipped: true })
  })
}
