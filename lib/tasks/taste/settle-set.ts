import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { listAttributes } from '@/lib/db/scores'
import { findSetAnswers, settleSet } from '@/lib/db/sets'
import type { SkipReason } from '@/lib/forms/score-form'
import { atSet, type AtSet, type SetRefusal } from './at-set'
import type { World } from '../world'

/** "Next" after the last answer: these cups are done together, and nothing of them changes any more. */
export async function lockSet(
  world: World,
  browser: string | null,
  message: AtSet,
): Promise<Result<{ readonly locked: true }, SetRefusal | 'answers-missing' | 'panel-closed'>> {
  return atSet(world, browser, message, async ({ tx, at, seat, set, closed, gone, note }) => {
    if (set.lockedAt) return ok({ locked: true })
    if (gone) return no(gone)
    if (closed) return no('panel-closed')
    const asked = (await listAttributes(tx, seat.cafeId, seat.panelId)).filter(({ about }) => about === 'set')
    const given = await findSetAnswers(tx, seat.cafeId, set.id)
    if (asked.some(({ id }) => !given.some(({ attributeId }) => attributeId === id))) return no('answers-missing')

    await settleSet(tx, set.id, { lockedAt: at, skippedAt: null, skipReason: null, skipSource: null })
    await note('set-finished')
    return ok({ locked: true })
  })
}

/** Leaves a set out, with a reason: of cups that are compared one alone says nothing. What was answered before stays beside the skip. */
export async function skipSet(
  world: World,
  browser: string | null,
  message: AtSet & { readonly reason: SkipReason },
): Promise<Result<{ readonly skipped: true }, SetRefusal | 'locked' | 'panel-closed'>> {
  return atSet(world, browser, message, async ({ tx, at, set, closed, gone, note }) => {
    if (gone) return set.skippedAt && set.skipSource === 'phone' ? ok({ skipped: true }) : no(gone)
    if (set.skippedAt) return ok({ skipped: true })
    if (set.lockedAt) return no('locked')
    if (closed) return no('panel-closed')

    const { reason } = message
    await settleSet(tx, set.id, { lockedAt: at, skippedAt: at, skipReason: reason, skipSource: 'phone' })
    await note('set-skipped', { reason })
    return ok({ skipped: true })
  })
}
