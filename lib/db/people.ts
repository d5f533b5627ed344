import 'server-only'
import type { Db, Tx } from './client'

export interface SignInRecord {
  readonly userId: string
  readonly passwordHash: string
  readonly sessionVersion: number
}

export async function findSignInRecord(db: Db | Tx, email: string): Promise<SignInRecord | null> {
  const user = await db.user.findUnique({
    where: { email },
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
