import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { findPanel } from '@/lib/db/panels'
import { addOpening } from '@/lib/db/trays'
import type { ListName } from '@/lib/panel/pouring-list'
import { noteAct, type Actor, type World } from './world'

/** Records that somebody opens a list, each time anew. @returns the opening's id: it shows the list to this member only */
export async function openList(
  world: World,
  actor: Actor,
  panelId: string,
  list: ListName,
): Promise<Result<string, 'not-open'>> {
  return world.db.$transaction(async (tx) => {
    const panel = await findPanel(tx, actor.cafeId, panelId)
    if (panel?.stage !== 'open') return no('not-open')
    const id = world.id()
    await addOpening(tx, { id, cafeId: actor.cafeId, panelId, userId: actor.userId, list, at: world.now() })
    await noteAct(world, tx, actor, {
      act: 'list-opened',
      subjectKind: 'panel',
      subjectId: panelId,
      detail: { list },
    })
    return ok(id)
  })
}
