import 'server-only'
import { inTransaction } from './engine/transaction'
import type { Db, Tx } from './engine/client'
import { memberShape, memberOf, type MemberRecord } from './people'

export interface SessionRow {
  readonly id: string
  readonly userId: string
  /** "Firefox on Linux" */
  readonly browser: string
  readonly createdAt: Date
  readonly expiresAt: Date
}

/** Begins a session, and sweeps out those that are past their time, whosever they were. */
export async function addSession(db: Db, session: SessionRow): Promise<void> {
  await inTransaction({ db }, async (tx) => {
    await sweepSessions(tx, session.createdAt)
    await tx.session.create({ data: session })
  })
}

/** The person of a session that is not over, and the café they work in, read fresh: a changed role counts at the next request. */
export async function findMemberOfSession(
  db: Db | Tx,
  session: { readonly id: string; readonly userId: string },
  now: Date,
): Promise<MemberRecord | null> {
  const found = await db.session.findFirst({
    where: { ...session, expiresAt: { gt: now } },
    select: { user: { select: memberShape } },
  })
  return found && memberOf(found.user)
}

export async function findSessions(db: Db | Tx, userId: string, now: Date): Promise<readonly SessionRow[]> {
  return db.session.findMany({ where: { userId, expiresAt: { gt: now } }, orderBy: { createdAt: 'desc' } })
}

/** @returns false when this person has no such session any more */
export async function endSession(db: Db | Tx, userId: string, id: string): Promise<boolean> {
  const { count } = await db.session.deleteMany({ where: { id, userId } })
  return count === 1
}

/** Ends every session of a person but the one that asks. @returns how many */
export async function endOtherSessions(tx: Tx, userId: string, kept: string): Promise<number> {
  const { count } = await tx.session.deleteMany({ where: { userId, NOT: { id: kept } } })
  return count
}

export async function endSessions(tx: Tx, userId: string): Promise<void> {
  await tx.session.deleteMany({ where: { userId } })
}

export async function sweepSessions(tx: Tx, now: Date): Promise<void> {
  await tx.session.deleteMany({ where: { expiresAt: { lte: now } } })
}

export async function endAllSessions(db: Db): Promise<void> {
  await db.session.deleteMany()
}
