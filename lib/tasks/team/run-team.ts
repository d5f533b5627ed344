import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import type { Role } from '@/lib/auth/rights'
import { hashToken } from '@/lib/auth/link-token'
import { checkEarlier, type Asker } from '@/lib/auth/sign-in'
import { inTransaction } from '@/lib/db/engine/transaction'
import { addLink, findLiveLink, findOpenInvites, useUpLink, voidLink } from '@/lib/db/links'
import type { Tx } from '@/lib/db/engine/client'
import {
  addMember,
  countOwners,
  endMembership,
  findMembership,
  findTeam,
  findUserByEmail,
  restoreMembership,
  setRole,
  worksHere,
} from '@/lib/db/people'
import { findHearsBack } from '@/lib/db/home-sheets'
import { findLeavers, findNameDays } from '@/lib/db/privacy'
import { endSessions } from '@/lib/db/sessions'
import type { AcceptInvite } from '@/lib/forms/account-form'
import { noteAct, type Actor, type World } from '../world'
import { hashChosen, type PasswordRefusal } from './new-password'

const inviteDays = 7

/** @returns the invitation's token; it is shown once and kept only as a fingerprint */
export async function inviteMember(world: World, actor: Actor, role: Role, forWhom: string | null): Promise<string> {
  const token = world.token()
  const id = world.id()
  const now = world.now()
  await inTransaction(world, async (tx) => {
    await addLink(tx, {
      id,
      kind: 'invite',
      tokenHash: hashToken(token),
      cafeId: actor.cafeId,
      role,
      email: forWhom,
      createdAt: now,
      expiresAt: new Date(now.getTime() + inviteDays * 86_400_000),
    })
    await noteAct(world, tx, actor, { act: 'member-invited', subjectKind: 'link', subjectId: id, detail: { role } })
  })
  return token
}

export async function withdrawInvite(world: World, actor: Actor, linkId: string): Promise<void> {
  await inTransaction(world, async (tx) => {
    if (!(await voidLink(tx, actor.cafeId, linkId, world.now()))) return
    await noteAct(world, tx, actor, { act: 'invitation-withdrawn', subjectKind: 'link', subjectId: linkId })
  })
}

export interface Invitation {
  readonly cafeName: string
  readonly role: string
}

export async function readInvitation(world: World, token: string): Promise<Invitation | null> {
  const link = await findLiveLink(world.db, 'invite', hashToken(token), world.now())
  return link?.cafeName && link.role ? { cafeName: link.cafeName, role: link.role } : null
}

export type JoinRefusal = 'link-dead' | 'email-taken' | 'wrong-earlier' | 'wait' | PasswordRefusal

/**
 * Somebody new joins by an invitation, or somebody who left comes back by theirs: then the password is the one they had, so that
 * nobody takes another's name and history with an invitation alone.
 */
export async function acceptInvite(
  world: World,
  asker: Asker,
  token: string,
  wanted: AcceptInvite,
): Promise<Result<Actor, JoinRefusal>> {
  const invitation = await readInvitation(world, token)
  if (!invitation) return no('link-dead')
  const known = await findUserByEmail(world.db, wanted.email)
  // Looked at before the link is used up, so that a slip of the keyboard does not cost the invitation.
  if (known && (await worksHere(world.db, known.id))) return no('email-taken')
  if (known) return comeBack(world, asker, token, wanted)
  const hashed = await hashChosen(wanted.password, [wanted.name, wanted.email, invitation.cafeName])
  if (!hashed.ok) return hashed
  const passwordHash = hashed.value
  return inTransaction(world, async (tx) => {
    const now = world.now()
    const link = await findLiveLink(tx, 'invite', hashToken(token), now)
    if (!link?.cafeId || !link.role) return no('link-dead')
    if (await findUserByEmail(tx, wanted.email)) return no('email-taken')
    if (!(await useUpLink(tx, link.id, now))) return no('link-dead')
    const actor = { userId: world.id(), cafeId: link.cafeId }
    await addMember(
      tx,
      { id: actor.userId, email: wanted.email, name: wanted.name, passwordHash, createdAt: now },
      { id: world.id(), cafeId: actor.cafeId, role: link.role },
    )
    await noteJoined(world, tx, actor, 'member-joined', link.role)
    return ok(actor)
  })
}

async function comeBack(
  world: World,
  asker: Asker,
  token: string,
  wanted: AcceptInvite,
): Promise<Result<Actor, JoinRefusal>> {
  const earlier = await checkEarlier(world.db, world.now(), asker, wanted.email, wanted.password)
  if (!earlier.ok) return no(earlier.reason === 'wrong' ? 'wrong-earlier' : earlier.reason, earlier.detail)
  const { userId } = earlier.value
  return inTransaction(world, async (tx) => {
    const now = world.now()
    const link = await findLiveLink(tx, 'invite', hashToken(token), now)
    if (!link?.cafeId || !link.role) return no('link-dead')
    if (await worksHere(tx, userId)) return no('email-taken')
    if (!(await useUpLink(tx, link.id, now))) return no('link-dead')
    const actor = { userId, cafeId: link.cafeId }
    await restoreMembership(tx, { id: world.id(), ...actor, role: link.role }, now)
    await noteJoined(world, tx, actor, 'member-came-back', link.role)
    return ok(actor)
  })
}

async function noteJoined(world: World, tx: Tx, actor: Actor, act: string, role: string): Promise<void> {
  await noteAct(world, tx, actor, { act, subjectKind: 'user', subjectId: actor.userId, detail: { role } })
}

export type TeamRefusal = 'not-a-member' | 'last-owner'

export async function changeRole(
  world: World,
  actor: Actor,
  userId: string,
  role: Role,
): Promise<Result<null, TeamRefusal>> {
  return withMembership(world, actor, userId, role !== 'owner', async (tx, membershipId) => {
    await setRole(tx, membershipId, role)
    await noteAct(world, tx, actor, { act: 'role-changed', subjectKind: 'user', subjectId: userId, detail: { role } })
  })
}

/** Takes somebody off the team and ends their sessions. What they did stays in the diary. */
export async function removeMember(world: World, actor: Actor, userId: string): Promise<Result<null, TeamRefusal>> {
  return withMembership(world, actor, userId, true, async (tx, membershipId) => {
    await endMembership(tx, membershipId, world.now())
    await endSessions(tx, userId)
    await noteAct(world, tx, actor, { act: 'member-removed', subjectKind: 'user', subjectId: userId })
  })
}

/** A café always keeps one owner. */
async function withMembership(
  world: World,
  actor: Actor,
  userId: string,
  mayLoseAnOwner: boolean,
  change: (tx: Tx, membershipId: string) => Promise<void>,
): Promise<Result<null, TeamRefusal>> {
  return inTransaction(world, async (tx) => {
    const membership = await findMembership(tx, actor.cafeId, userId)
    if (!membership) return no('not-a-member')
    if (mayLoseAnOwner && membership.role === 'owner' && (await countOwners(tx, actor.cafeId)) <= 1)
      return no('last-owner')
    await change(tx, membership.id)
    return ok(null)
  })
}

export type Team = Awaited<ReturnType<typeof readTeam>>

export async function readTeam(world: World, actor: Actor) {
  const [members, invites, leavers, nameDays, hearsBack] = await Promise.all([
    findTeam(world.db, actor.cafeId),
    findOpenInvites(world.db, actor.cafeId, world.now()),
    findLeavers(world.db, actor.cafeId),
    findNameDays(world.db, actor.cafeId),
    findHearsBack(world.db, actor.cafeId),
  ])
  return { members, invites, leavers, nameDays, hearsBack }
}
