import 'server-only'
import { inTransaction } from '@/lib/db/engine/transaction'
import { endOtherSessions, endSession, findSessions } from '@/lib/db/sessions'
import { noteAct, type Actor, type World } from '../world'

export interface OwnSession {
  readonly id: string
  readonly browser: string
  readonly since: Date
  readonly isThisOne: boolean
}

/** Whoever asks, by the session they ask from. */
export type SessionActor = Actor & { readonly sessionId: string }

/** Where somebody is signed in, the newest first. */
export async function readOwnSessions(world: World, actor: SessionActor): Promise<readonly OwnSession[]> {
  const sessions = await findSessions(world.db, actor.userId, world.now())
  return sessions.map(({ id, browser, createdAt }) => ({
    id,
    browser,
    since: createdAt,
    isThisOne: id === actor.sessionId,
  }))
}

/** Ends one of one's own sessions; another's is none of theirs, and nothing happens. */
export async function endOwnSession(world: World, actor: SessionActor, sessionId: string): Promise<void> {
  await inTransaction(world, async (tx) => {
    if (!(await endSession(tx, actor.userId, sessionId))) return
    await noteAct(world, tx, actor, { act: 'session-ended', subjectKind: 'user', subjectId: actor.userId })
  })
}

export async function endEveryOtherSession(world: World, actor: SessionActor): Promise<void> {
  await inTransaction(world, async (tx) => {
    const sessions = await endOtherSessions(tx, actor.userId, actor.sessionId)
    if (sessions === 0) return
    const detail = { sessions }
    await noteAct(world, tx, actor, {
      act: 'other-sessions-ended',
      subjectKind: 'user',
      subjectId: actor.userId,
      detail,
    })
  })
}
