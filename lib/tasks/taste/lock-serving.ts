import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { changeServing, countScores, listAttributes } from '@/lib/db/scores'
import { atServing, type AtServing, type ServingRefusal } from './at-serving'
import { noteTaster } from './taster-diary'
import type { World } from '../world'

/** "Next" after the last answer: the cup is done and nothing of it changes any more. */
export async function lockServing(
  world: World,
  browser: string | null,
  message: AtServing,
): Promise<Result<{ readonly locked: true }, ServingRefusal | 'answers-missing' | 'panel-closed' | 'in-a-set'>> {
  return atServing(world, browser, message, async ({ tx, at, seat, serving, closed, gone }) => {
    if (serving.setId !== null) return no('in-a-set')
    if (serving.lockedAt) return ok({ locked: true })
    if (gone) return no(gone)
    if (closed) return no('panel-closed')
    const asked = await listAttributes(tx, seat.cafeId, seat.panelId)
    if ((await countScores(tx, seat.cafeId, serving.id)) < asked.length) return no('answers-missing')

    await changeServing(tx, serving.id, { lockedAt: at })
    await noteTaster(world, tx, {
      cafeId: seat.cafeId,
      at,
      act: 'cup-finished',
      subjectKind: 'serving',
      subjectId: serving.id,
    })
    return ok({ locked: true })
  })
}
