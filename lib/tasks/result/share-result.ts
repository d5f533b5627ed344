import 'server-only'
import { hashToken } from '@/lib/auth/link-token'
import { no, ok, type Result } from '@/lib/base/result'
import { inTransaction } from '@/lib/db/engine/transaction'
import { findPanel } from '@/lib/db/panels'
import { findNames } from '@/lib/db/people'
import { addReadLink, endReadLink, findReadLinks } from '@/lib/db/read-links'
import { findStage, isUnblinded } from '@/lib/panel/plan'
import { noteAct, type Actor, type World } from '../world'

/** @returns the token of a link that shows a closed panel's result to whoever holds it; kept only as a fingerprint */
export async function shareResult(world: World, actor: Actor, panelId: string): Promise<Result<string, 'not-closed'>> {
  const token = world.token()
  return inTransaction(world, async (tx) => {
    const panel = await findPanel(tx, actor.cafeId, panelId)
    if (!panel || !isUnblinded(findStage(panel.stage) ?? 'draft')) return no('not-closed')
    const id = world.id()
    await addReadLink(tx, {
      id,
      cafeId: actor.cafeId,
      panelId,
      tokenHash: hashToken(token),
      createdAt: world.now(),
      createdById: actor.userId,
    })
    await noteAct(world, tx, actor, { act: 'result-shared', subjectKind: 'panel', subjectId: panelId })
    return ok(token)
  })
}

/** Ends a link. What was ended before stays so, and nothing is written of it. */
export async function endSharing(world: World, actor: Actor, panelId: string, linkId: string): Promise<void> {
  await inTransaction(world, async (tx) => {
    const by = { at: world.now(), userId: actor.userId }
    if (!(await endReadLink(tx, actor.cafeId, panelId, linkId, by))) return
    await noteAct(world, tx, actor, { act: 'sharing-ended', subjectKind: 'panel', subjectId: panelId })
  })
}

export interface SharedLink {
  readonly id: string
  readonly createdAt: Date
  readonly by: string
}

/** The links that show this panel's result now. */
export async function listShared(world: World, actor: Actor, panelId: string): Promise<readonly SharedLink[]> {
  const links = await findReadLinks(world.db, actor.cafeId, panelId)
  const names = await findNames(
    world.db,
    links.flatMap(({ createdById }) => (createdById ? [createdById] : [])),
  )
  return links.map(({ id, createdAt, createdById }) => ({
    id,
    createdAt,
    by: createdById ? (names.get(createdById) ?? 'somebody') : 'the house',
  }))
}
