import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import { checkSignIn, type Asker, type SignInRefusal } from '@/lib/auth/sign-in'
import { hashToken } from '@/lib/auth/link-token'
import type { Tx } from '@/lib/db/engine/client'
import { addLink, findLiveLink, useUpLink, voidResets } from '@/lib/db/links'
import { releaseBrakesOf } from '@/lib/db/brakes'
import { findMember, findUserByEmail, requireUser, setPassword } from '@/lib/db/people'
import { endSessions } from '@/lib/db/sessions'
import { writeAudit } from '@/lib/db/audit'
import { inTransaction } from '@/lib/db/engine/transaction'
import { noteAct, type Actor, type World } from '../world'
import { hashChosen, type PasswordRefusal } from './new-password'

const resetHours = 24

/** Makes a one-time link for a person who forgot their password. @returns its token, or null when nobody has this address */
export async function makeResetLink(world: World, typedEmail: string): Promise<string | null> {
  const email = typedEmail.trim().toLowerCase()
  const user = await findUserByEmail(world.db, email)
  if (!user) return null
  const token = world.token()
  const now = world.now()
  await addLink(world.db, {
    id: world.id(),
    kind: 'reset',
    tokenHash: hashToken(token),
    cafeId: null,
    role: null,
    email,
    createdAt: now,
    expiresAt: new Date(now.getTime() + resetHours * 3_600_000),
  })
  return token
}

export async function canReset(world: World, token: string): Promise<boolean> {
  return (await findLiveLink(world.db, 'reset', hashToken(token), world.now())) !== null
}

/** Sets a new password by a reset link, and ends every session and every other reset link of that person. */
export async function resetPassword(
  world: World,
  token: string,
  password: string,
): Promise<Result<string, 'link-dead' | PasswordRefusal>> {
  // The link is looked at once more below: a hash takes its time.
  const whose = await findLiveLink(world.db, 'reset', hashToken(token), world.now())
  if (!whose?.email) return no('link-dead')
  const hashed = await hashChosen(password, [whose.email])
  if (!hashed.ok) return hashed
  return inTransaction(world, async (tx) => {
    const now = world.now()
    const link = await findLiveLink(tx, 'reset', hashToken(token), now)
    if (!link?.email || !(await useUpLink(tx, link.id, now))) return no('link-dead')
    const user = await findUserByEmail(tx, link.email)
    if (!user) return no('link-dead')
    await changeTo(tx, user, hashed.value, now)
    await releaseBrakesOf(tx, user.email)
    const member = await findMember(tx, user.id)
    if (member) {
      await writeAudit(tx, {
        id: world.id(),
        cafeId: member.cafe.id,
        at: now,
        actor: { kind: 'member', id: user.id },
        act: 'password-reset',
        subjectKind: 'user',
        subjectId: user.id,
      })
    }
    return ok(user.email)
  })
}

/**
 * Changes one's own password, and ends every other session and every reset link. The present one is asked for under the brake of
 * signing in: whoever holds an open session could otherwise try as many as they like.
 */
export async function changePassword(
  world: World,
  actor: Actor,
  asker: Asker,
  current: string,
  password: string,
): Promise<Result<null, SignInRefusal | PasswordRefusal>> {
  const user = await requireUser(world.db, actor.userId)
  const known = await checkSignIn(world.db, world.now(), asker, user.email, current)
  if (!known.ok) return known
  const hashed = await hashChosen(password, [user.email, user.name])
  if (!hashed.ok) return hashed
  await inTransaction(world, async (tx) => {
    await changeTo(tx, user, hashed.value, world.now())
    await noteAct(world, tx, actor, { act: 'password-changed', subjectKind: 'user', subjectId: user.id })
  })
  return ok(null)
}

/** A new password ends every session that began with the old one, and every reset link. */
async function changeTo(tx: Tx, user: { id: string; email: string }, passwordHash: string, now: Date): Promise<void> {
  await setPassword(tx, user.id, passwordHash)
  await endSessions(tx, user.id)
  await voidResets(tx, user.email, now)
}
