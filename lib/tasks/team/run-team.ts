import 'server-only'
import { no, ok, type Result } from '@/lib/base/result'
import type { Role } from '@/lib/auth/rights'
import { hashPassword } from '@/lib/auth/password'
import { hashToken } from '@/lib/auth/link-token'
import { addLink, findLiveLink, findOpenInvites, useUpLink, voidLink } from '@/lib/db/links'
import type { Tx } from '@/lib/db/engine/client'
import {
  addMember,
  countOwners,
  endMembership,
  endSessions,
  findMembership,
  findTeam,
  findUserByEmail,
  setRole,
} from '@/lib/db/people'
import type { AcceptInvite } from '@/lib/forms/account-form'
import { noteAct, type Actor, type World } from '../world'

const inviteDays = 7

/** @returns the invitation's token; it is shown once and kept only as a fingerprint */
export async function inviteMember(world: World, actor: Actor, role: Role, forWhom: string | null): Promise<string> {
  const token = world.token()
  const id = world.id()
  const now = world.now()
  await world.db.$transaction(async (tx) => {
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
  await world.db.$transaction(async (tx) => {
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

export async function acceptInvite(
  world: World,
  token: string,
  wanted: AcceptInvite,
): Promise<Result<Actor, 'link-dead' | 'email-taken'>> {
  if (!(await readInvitation(world, token))) return no('link-dead')
  const passwordHash = await hashPassword(wanted.password)
  return world.db.$transaction(async (tx) => {
    const now = world.now()
    const link = await findLiveLink(tx, 'invite', hashToken(token), now)
    if (!link?.cafeId || !link.role) return no('link-dead')
    // Looked at before the link is used up, so that a slip of the keyboard does not cost the invitation.
    if (await findUserByEmail(tx, wanted.email)) return no('email-taken')
    if (!(await useUpLink(tx, link.id, now))) return no('link-dead')
    const actor = { userId: world.id(), cafeId: link.cafeId }
    await addMember(
      tx,
      { id: actor.userId, email: wanted.email, name: wanted.name, passwordHash, createdAt: now },
      { id: world.id(), cafeId: actor.cafeId, role: link.role },
    )
    await noteAct(world, tx, actor, {
      act: 'member-joined',
      subjectKind: 'user',
      subjectId: actor.userId,
      detail: { role: link.role },
    })
    return ok(actor)
  })
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
  return world.db.$transaction(async (tx) => {
    const membership = await findMembership(tx, actor.cafeId, userId)
    if (!membership) return no('not-a-member')
    if (mayLoseAnOwner && membership.role === 'owner' && (await countOwners(tx, actor.cafeId)) <= 1)
      return no('last-owner')
    await change(tx, membership.id)
    return ok(null)
  })
}

export async function readTeam(world: World, actor: Actor) {
  const invites = await findOpenInvites(world.db, actor.cafeId, world.now())
  return { members: await findTeam(world.db, actor.cafeId), invites }
}
