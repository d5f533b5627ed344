import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import { dropDraft } from '@/lib/db/panels'
import { noteAct, type Actor, type World } from '../world'

/** Throws a draft away. A panel that was ever open stays for good. */
export async function discardDraft(world: World, actor: Actor, panelId: string): Promise<Result<null, 'not-a-draft'>> {
  return inTransaction(world, async (tx) => {
    if (!(await dropDraft(tx, actor.cafeId, panelId))) return no('not-a-draft')
    await noteAct(world, tx, actor, { act: 'draft-discarded', subjectKind: 'panel', subjectId: panelId })
    return ok(null)
  })
}
