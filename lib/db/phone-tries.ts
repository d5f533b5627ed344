import 'server-only'
import type { Db, Tx } from './engine/client'

export async function addPhoneTry(
  tx: Tx,
  row: {
    readonly id: string
    readonly cafeId: string
    readonly panelId: string
    readonly token: string
    readonly createdAt: Date
  },
): Promise<void> {
  await tx.phoneTry.create({ data: row })
}

export async function findPhoneTryOf(db: Db | Tx, cafeId: string, panelId: string, id: string) {
  return db.phoneTry.findFirst({
    where: { id, cafeId, panelId },
    select: { token: true, createdAt: true, reachedAt: true },
  })
}

/** The newest time any phone reached this panel's try-out page. */
export async function findLastReached(db: Db | Tx, cafeId: string, panelId: string): Promise<Date | null> {
  const newest = await db.phoneTry.findFirst({
    where: { cafeId, panelId, reachedAt: { not: null } },
    orderBy: { reachedAt: 'desc' },
    select: { reachedAt: true },
  })
  return newest?.reachedAt ?? null
}

export async function findPhoneTry(db: Db | Tx, token: string) {
  return db.phoneTry.findUnique({
    where: { token },
    select: { id: true, cafeId: true, panelId: true, reachedAt: true },
  })
}

export async function markPhoneTry(tx: Tx, id: string, at: Date): Promise<void> {
  await tx.phoneTry.update({ where: { id }, data: { reachedAt: at } })
}
