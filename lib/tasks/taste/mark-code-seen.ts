import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { changeServing } from '@/lib/db/scores'
import { atServing, type AtServing, type ServingRefusal } from './at-serving'
import { noteTaster } from './taster-diary'
import type { World } from '../world'

/** Keeps that the taster found this code on the cup; the first time counts. */
export async function markCodeSeen(
  world: World,
  browser: string | null,
  message: AtServing,
): Promise<Result<{ readonly seen: true }, ServingRefusal | 'panel-closed'>> {
  return atServing(world, browser, message, async ({ tx, at, seat, serving, closed, gone }) => {
    if (serving.codeSeenAt) return ok({ seen: true })
    if (gone) return no(gone)
    if (closed) return no('panel-closed')

    await changeServing(tx, serving.id, { codeSeenAt: at })
    await noteTaster(world, tx, {
      cafeId: seat.cafeId,
      at,
      act: 'code-seen',
      subjectKind: 'serving',
      subjectId: serving.id,
    })
    return ok({ seen: true })
  })
}
