import 'server-only'
import type { Db, Tx } from './engine/client'

export interface SignInRecord {
  readonly userId: string
  readonly passwordHash: string
  readonly sessionVersion: number
}

/** Of a present member of the team: who was removed has nothing to sign in to, and is answered like a stranger. */
export async function findSignInRecord(db: Db | Tx, email: string): Promise<SignInRecord | null> {
  const user = await db.user.findUnique({
    where: { email, memberships: { some: { removedAt: null } } },
    select: { id: true, passwordHash: true, sessionVersion: true },
  })
  return user && { userId: user.id, passwordHash: user.passwordHash, sessionVersion: user.sessionVersion }
}

export interface MemberRecord {
  readonly userId: string
  readonly name: string
  readonly email: string
  readonly sessionVersion: number
  readonly membershipId: string
  readonly role: string
  readonly cafe: {
    readonly id: string
    readonly name: string
    readonly currency: string
    readonly currencyDigits: number
    readonly timeZone: string
    readonly allergenList: string
    readonly isDemo: boolean
  }
}

const cafeShape = {
  id: true,
  name: true,
  currency: true,
  currencyDigits: true,
  timeZone: true,
  allergenList: true,
  isDemo: true,
} as const

/** The person and the café they work in, read fresh: a removed member or a changed role counts at the next request. */
export async function findMember(db: Db | Tx, userId: string): Promise<MemberRecord | null> {
  const membership = await db.membership.findFirst({
    where: { userId, removedAt: null },
    orderBy: { createdAt: 'asc' },
    select: { id: true, role: true, user: true, cafe: { select: cafeShape } },
  })
  if (!membership) return null
  const { user, cafe } = membership
  return {
    userId: user.id,
    name: user.name,
    email: user.email,
    sessionVersion: user.sessionVersion,
    membershipId: membership.id,
    role: membership.role,
    cafe,
  }
}

export async function findBrake(db: Db | Tx, email: string) {
  return db.signInBrake.findUnique({ where: { email } })
}

export async function noteFailedSignIn(
  db: Db | Tx,
  email: string,
  at: Date,
  failures: number,
  lockedUntil: Date | null,
) {
  await db.signInBrake.upsert({
    where: { email },
    create: { email, failures, lastAt: at, lockedUntil },
    update: { failures, lastAt: at, lockedUntil },
  })
}

export async function clearBrake(db: Db | Tx, email: string) {
  await db.signInBrake.deleteMany({ where: { email } })
}

export async function findUserByEmail(db: Db | Tx, email: string) {
  return db.user.findUnique({ where: { email }, select: { id: true, email: true, passwordHash: true } })
}

export async function requireUser(db: Db | Tx, id: string) {
  return db.user.findUniqueOrThrow({ where: { id }, select: { id: true, email: true, passwordHash: true } })
}

export interface NewUser {
  readonly id: string
  readonly email: string
  readonly name: string
  readonly passwordHash: string
  readonly createdAt: Date
}

/** A person and their place in a café, together. */
export async function addMember(
  tx: Tx,
  user: NewUser,
  membership: { id: string; cafeId: string; role: string },
): Promise<void> {
  await tx.user.create({ data: user })
  await tx.membership.create({ data: { ...membership, userId: user.id, createdAt: user.createdAt } })
}

/** Sets a new password and ends every session that began with the old one. */
export async function setPassword(tx: Tx, userId: string, passwordHash: string): Promise<void> {
  await tx.user.update({ where: { id: userId }, data: { passwordHash, sessionVersion: { increment: 1 } } })
}

export async function endSessions(tx: Tx, userId: string): Promise<void> {
  await tx.user.update({ where: { id: userId }, data: { sessionVersion: { increment: 1 } } })
}

export async function findTeam(db: Db | Tx, cafeId: string) {
  const memberships = await db.membership.findMany({
    where: { cafeId, removedAt: null },
    orderBy: { createdAt: 'asc' },
    select: { role: true, createdAt: true, user: { select: { id: true, name: true, email: true } } },
  })
  return memberships.map(({ role, createdAt, user }) => ({ ...user, role, since: createdAt }))
}

export async function findMembership(db: Db | Tx, cafeId: string, userId: string) {
  return db.membership.findFirst({ where: { cafeId, userId, removedAt: null }, select: { id: true, role: true } })
}

export async function countOwners(db: Db | Tx, cafeId: string): Promise<number> {
  return db.membership.count({ where: { cafeId, role: 'owner', removedAt: null } })
}

export async function setRole(tx: Tx, membershipId: string, role: string): Promise<void> {
  await tx.membership.update({ where: { id: membershipId }, data: { role } })
}

export async function endMembership(tx: Tx, membershipId: string, at: Date): Promise<void> {
  await tx.membership.update({ where: { id: membershipId }, data: { removedAt: at } })
}

/** Names of people by id, for lines that say who did what. */
export async function findNames(db: Db | Tx, userIds: readonly string[]): Promise<ReadonlyMap<string, string>> {
  const people = await db.user.findMany({
    where: { id: { in: [...new Set(userIds)] } },
    select: { id: true, name: true },
  })
  return new Map(people.map((person) => [person.id, person.name]))
}

export async function countUsers(db: Db | Tx): Promise<number> {
  return db.user.count()
}
