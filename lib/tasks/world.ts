import 'server-only'
import { randomInt } from 'node:crypto'
import { nanoid } from 'nanoid'
import { type Db, type Tx, theDatabase } from '@/lib/db/engine/client'
import { type AuditEntry, writeAudit } from '@/lib/db/audit'

/** What a task may not invent for itself: the database, the time and chance. */
export interface World {
  readonly db: Db
  now(): Date
  /** a new random public id (21 URL-safe characters, 126 bits) */
  id(): string
  /** a new secret for a link (43 URL-safe characters, 256 bits) */
  token(): string
  /** an unguessable whole number, 0 ≤ x < n */
  below(n: number): number
}

export function worldOf(db: Db): World {
  return { db, now: () => new Date(), id: () => nanoid(), token: () => nanoid(43), below: (n) => randomInt(n) }
}

export function theWorld(): World {
  return worldOf(theDatabase())
}

/** Who does a thing: a signed-in member, in the café they are signed in to. */
export interface Actor {
  readonly userId: string
  readonly cafeId: string
}

/** What a build needs to know of the café. */
export interface CafeMoney {
  readonly currency: string
  readonly currencyDigits: number
  readonly allergenList: string
}

/** Who reads figures: they are worked out by the café's money and allergen list. */
export type Reader = Actor & { readonly cafe: CafeMoney }

/** The diary line for a member's act, inside the act's own transaction. */
export async function noteAct(
  world: World,
  tx: Tx,
  actor: Actor,
  entry: Pick<AuditEntry, 'act' | 'subjectKind' | 'subjectId' | 'detail'>,
): Promise<void> {
  await writeAudit(tx, {
    ...entry,
    id: world.id(),
    cafeId: actor.cafeId,
    at: world.now(),
    actor: { kind: 'member', id: actor.userId },
  })
}
