import 'server-only'
import type { Db, Tx } from './engine/client'

export interface NewReadLink {
  readonly id: string
  readonly cafeId: string
  readonly panelId: string
  readonly tokenHash: string
  readonly createdAt: Date
  readonly createdById: string
}

export async function addReadLink(tx: Tx, link: NewReadLink): Promise<void> {
  await tx.readLink.create({ data: link })
}

/** @returns false where there is none to withdraw: withdrawn before, or not this panel's */
export async function endReadLink(
  tx: Tx,
  cafeId: string,
  panelId: string,
  id: string,
  by: { readonly at: Date; readonly userId: string },
): Promise<boolean> {
  const { count } = await tx.readLink.updateMany({
    where: { id, cafeId, panelId, withdrawnAt: null },
    data: { withdrawnAt: by.at, withdrawnById: by.userId },
  })
  return count === 1
}

/** The links of a panel that still open it, oldest first. */
export async function findReadLinks(db: Db | Tx, cafeId: string, panelId: string) {
  return db.readLink.findMany({
    where: { cafeId, panelId, withdrawnAt: null },
    orderBy: [{ createdAt: 'asc' }, { id: 'asc' }],
    select: { id: true, createdAt: true, createdById: true },
  })
}

/** Which panel a link opens; null for one that was withdrawn or never was. */
export async function findReadLink(db: Db | Tx, tokenHash: string) {
  return db.readLink.findFirst({ where: { tokenHash, withdrawnAt: null }, select: { cafeId: true, panelId: true } })
}
