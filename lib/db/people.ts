import 'server-only'
import type { Db, Tx } from './engine/client'
import type { Prisma } from './generated/client'

export interface SignInRecord {
  readonly userId: string
  readonly passwordHash: string
}

/** Of a present member of the team: who was removed has nothing to sign in to, and is answered like a stranger. */
export async function findSignInRecord(db: Db | Tx, email: string): Promise<SignInRecord | null> {
  const user = await db.user.findUnique({
    where: { email, memberships: { some: { removedAt: null } } },
    select: { id: true, passwordHash: true },
  })
  return user && { userId: user.id, passwordHash: user.passwordHash }
}

/** Of anybody who ever worked here and was not forgotten. */
export async function findEarlierRecord(db: Db | Tx, email: string): Promise<SignInRecord | null> {
  const user = await db.user.findUnique({
    where: { email, forgottenAt: null },
    select: { id: true, passwordHash: true },
  })
  return user && { userId: user.id, passwordHash: user.passwordHash }
}

export interface MemberRecord {
  readonly userId: string
  readonly name: string
  readonly email: string
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

/** A person with the café they work in, and no other. */
export const memberShape = {
  id: true,
  name: true,
  email: true,
  memberships: {
    where: { removedAt: null },
    orderBy: { createdAt: 'asc' },
    take: 1,
    select: { role: true, cafe: { select: cafeShape } },
  },
} as const satisfies Prisma.UserSelect

/** null for who was removed */
export function memberOf(user: Prisma.UserGetPayload<{ select: typeof memberShape }>): MemberRecord | null {
  const [membership] = user.memberships
  return membership
    ? { userId: user.id, name: user.name, email: user.email, role: membership.role, cafe: membership.cafe }
    : null
}

export async function findMember(db: Db | Tx, userId: string): Promise<MemberRecord | null> {
  const user = await db.user.findUnique({ where: { id: userId }, select: memberShape })
  return user && memberOf(user)
}

export async function findUserByEmail(db: Db | Tx, email: string) {
  return db.user.findUnique({ where: { email }, select: { id: true, email: true, passwordHash: true } })
}

export async function requireUser(db: Db | Tx, id: string) {
  return db.user.findUniqueOrThrow({ where: { id }, select: { id: true, email: true, name: true } })
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

export async function setPassword(tx: Tx, userId: string, passwordHash: string): Promise<void> {
  await tx.user.update({ where: { id: userId }, data: { passwordHash } })
}

export async function findTeam(db: Db | Tx, cafeId: string) {
  const memberships = await db.membership.findMany({
    where: { cafeId, removedAt: null },
    orderBy: { createdAt: 'asc' },
    select: { role: true, createdAt: true, user: { select: { id: true, name: true, email: true } } },
  })
  return memberships.map(({ role, createdAt, user }) => ({ ...user, role, since: createdAt }))
}

/** Whether somebody works in any café of the house. */
export async function worksHere(db: Db | Tx, userId: string): Promise<boolean> {
  return (await db.membership.count({ where: { userId, removedAt: null } })) > 0
}

/** A place in a café for somebody who is known: a new one, or the one they left. */
export async function restoreMembership(
  tx: Tx,
  membership: { readonly id: string; readonly cafeId: string; readonly userId: string; readonly role: string },
  at: Date,
): Promise<void> {
  const { id, cafeId, userId, role } = membership
  await tx.membership.upsert({
    where: { cafeId_userId: { cafeId, userId } },
    create: { id, cafeId, userId, role, createdAt: at },
    update: { role, removedAt: null },
  })
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
  return new Map(people.map((person) => [person.id, person.name || 'somebody who left']))
}

export async function countUsers(db: Db | Tx): Promise<number> {
  return db.user.count()
}
