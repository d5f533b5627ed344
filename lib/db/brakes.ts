import 'server-only'
import type { Db, Tx } from './engine/client'

/** Whose tries are counted: those on one account, or (email "") on any, from one asker. */
export interface Brake {
  readonly email: string
  readonly asker: string
}

export async function findBrake(db: Db | Tx, brake: Brake) {
  return db.signInBrake.findUnique({ where: { email_asker: { email: brake.email, asker: brake.asker } } })
}

export async function noteTry(
  tx: Tx,
  { email, asker }: Brake,
  tried: { readonly failures: number; readonly lastAt: Date; readonly lockedUntil: Date | null },
): Promise<void> {
  await tx.signInBrake.upsert({
    where: { email_asker: { email, asker } },
    create: { email, asker, ...tried },
    update: tried,
  })
}

export async function releaseBrake(db: Db | Tx, { email, asker }: Brake): Promise<void> {
  await db.signInBrake.deleteMany({ where: { email, asker } })
}

/** One try was none of those that are counted; what is locked stays so. */
export async function takeBackTry(db: Db | Tx, { email, asker }: Brake): Promise<void> {
  await db.signInBrake.updateMany({
    where: { email, asker, failures: { gt: 0 } },
    data: { failures: { decrement: 1 } },
  })
}

/** Whoever asked: a new password leaves nothing of the tries on the old one. */
export async function releaseBrakesOf(tx: Tx, email: string): Promise<void> {
  await tx.signInBrake.deleteMany({ where: { email } })
}

export async function sweepBrakes(tx: Tx, before: Date): Promise<void> {
  await tx.signInBrake.deleteMany({ where: { lastAt: { lt: before } } })
}
