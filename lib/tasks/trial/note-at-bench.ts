import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { addBenchNote, isTastingTrial } from '@/lib/db/bench-notes'
import { inTransaction } from '@/lib/db/engine/transaction'
import { findTrial } from '@/lib/db/trials'
import type { BenchNoteSent } from '@/lib/forms/bench-note-form'
import { noteAct, type Actor, type World } from '../world'

/**
 * Adds what a maker notes of the own glass. It is not blind: it counts in no result. Whoever has a seat in an open panel that
 * pours the trial writes it down afterwards.
 */
export async function noteAtBench(
  world: World,
  actor: Actor,
  trialId: string,
  sent: BenchNoteSent,
): Promise<Result<null, 'gone' | 'is-tasting'>> {
  return inTransaction(world, async (tx) => {
    if (!(await findTrial(tx, actor.cafeId, trialId))) return no('gone')
    if (await isTastingTrial(tx, actor.cafeId, trialId, actor.userId)) return no('is-tasting')
    await addBenchNote(tx, {
      id: world.id(),
      cafeId: actor.cafeId,
      trialId,
      minutes: sent.minutes ?? null,
      sweet: sent.sweet ?? null,
      strong: sent.strong ?? null,
      body: sent.body ?? null,
      text: sent.text ?? null,
      at: world.now(),
      createdById: actor.userId,
    })
    await noteAct(world, tx, actor, { act: 'bench-note-added', subjectKind: 'trial', subjectId: trialId })
    return ok(null)
  })
}
