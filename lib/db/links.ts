import 'server-only'
import type { Db, Tx } from './engine/client'

export type LinkKind = 'setup' | 'invite' | 'reset'

export interface LinkRecord {
  readonly id: string
  readonly cafeId: string | null
  readonly role: string | null
  readonly email: string | null
  readonly cafeName: string | null
}

/** A link that still opens something: right kind, not used, not voided, not past its day. */
export async function findLiveLink(
  db: Db | Tx,
  kind: LinkKind,
  tokenHash: string,
  now: Date,
): Promise<LinkRecord | null> {
  const link = await db.oneTimeLink.findFirst({
    where: { tokenHash, kind, usedAt: null, voidedAt: null, expiresAt: { gt: now } },
    include: { cafe: { select: { name: true } } },
  })
  return (
    link && { id: link.id, cafeId: link.cafeId, role: link.role, email: link.email, cafeName: link.cafe?.name ?? null }
  )
}

/** Takes the link, once: false when somebody was faster. */
export async function useUpLink(tx: Tx, id: string, now: Date): Promise<boolean> {
  const { count } = await tx.oneTimeLink.updateMany({
    where: { id, usedAt: null, voidedAt: null, expiresAt: { gt: now } },
    data: { usedAt: now },
  })
  return count === 1
}

export interface NewLink {
  readonly id: string
  readonly kind: LinkKind
  readonly tokenHash: string
  readonly cafeId: string | null
  readonly role: string | null
  readonly email: string | null
  readonly createdAt: Date
  readonly expiresAt: Date
}

export async function addLink(db: Db | Tx, link: NewLink): Promise<void> {
  await db.oneTimeLink.create({ data: link })
}

export async function findOpenInvites(db: Db | Tx, cafeId: string, now: Date) {
  return db.oneTimeLink.findMany({
    where: { cafeId, kind: 'invite', usedAt: null, voidedAt: null, expiresAt: { gt: now } },
    select: { id: true, role: true, email: true, createdAt: true, expiresAt: true },
    orderBy: { createdAt: 'asc' },
  })
}

export async function voidLink(tx: Tx, cafeId: string, id: string, now: Date): Promise<boolean> {
  const { count } = await tx.oneTimeLink.updateMany({
    where: { id, cafeId, usedAt: null, voidedAt: null },
    data: { voidedAt: now },
  })
  return count === 1
}

/** Ends every live link of a kind that belongs to the installation. */
export async function voidLinksOfKind(tx: Tx, kind: 'setup', now: Date): Promise<void> {
  await tx.oneTimeLink.updateMany({ where: { kind, usedAt: null, voidedAt: null }, data: { voidedAt: now } })
}

/** Ends every live link, of any kind and café. */
export async function voidAllLinks(db: Db, now: Date): Promise<void> {
  await db.oneTimeLink.updateMany({ where: { usedAt: null, voidedAt: null }, data: { voidedAt: now } })
}

/** Ends every live reset link of one person. */
export async function voidResets(tx: Tx, email: string, now: Date): Promise<void> {
  await tx.oneTimeLink.updateMany({
    where: { kind: 'reset', email, usedAt: null, voidedAt: null },
    data: { voidedAt: now },
  })
}
