import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import { addNote, findTrial, setTrialArchived } from '@/lib/db/trials'
import { noteAct, type Actor, type World } from '../world'

/** Adds a note. Notes are added, never rewritten. */
export async function noteOnTrial(
  world: World,
  actor: Actor,
  trialId: string,
  text: string,
): Promise<Result<null, 'gone'>> {
  return inTransaction(world, async (tx) => {
    if (!(await findTrial(tx, actor.cafeId, trialId))) return no('gone')
    await addNote(tx, { id: world.id(), cafeId: actor.cafeId, trialId, text, at: world.now(), authorId: actor.userId })
    await noteAct(world, tx, actor, { act: 'note-added', subjectKind: 'trial', subjectId: trialId })
    return ok(null)
  })
}

/** Puts a trial aside, or takes it up again. Nothing is deleted. */
export async function archiveTrial(
  world: World,
  actor: Actor,
  trialId: string,
  archived: boolean,
): Promise<Result<null, 'gone'>> {
  return inTransaction(world, async (tx) => {
    if (!(await setTrialArchived(tx, actor.cafeId, trialId, archived ? world.now() : null))) return no('gone')
    await noteAct(world, tx, actor, {
      act: archived ? 'trial-put-aside' : 'trial-taken-up',
      subjectKind: 'trial',
      subjectId: trialId,
    })
    return ok(null)
  })
}
