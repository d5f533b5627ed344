import 'server-only'
import type { Db, Tx } from './engine/client'

export interface AuditEntry {
  readonly id: string
  readonly cafeId: string
  readonly at: Date
  readonly actor: { readonly kind: 'member'; readonly id: string } | { readonly kind: 'taster' | 'machine' }
  /** what happened, past tense: "panel-opened" */
  readonly act: string
  readonly subjectKind: string
  readonly subjectId: string
  /** small and plain; never a code, a seed or a key of a panel that is not closed */
  readonly detail?: Readonly<Record<string, string | number | boolean | null>>
}

/** Writes the line of the house's diary that belongs to a change. Takes the change's own transaction: both live or die. */
export async function writeAudit(tx: Tx, entry: AuditEntry): Promise<void> {
  await tx.auditRow.create({
    data: {
      id: entry.id,
      cafeId: entry.cafeId,
      at: entry.at,
      actorKind: entry.actor.kind,
      actorId: entry.actor.kind === 'member' ? entry.actor.id : null,
      act: entry.act,
      subjectKind: entry.subjectKind,
      subjectId: entry.subjectId,
      detail: entry.detail ? JSON.stringify(entry.detail) : null,
    },
  })
}

/** Has this been noted of this subject before? What a phone may do without end is noted once. */
export async function wasNoted(tx: Tx, cafeId: string, subjectId: string, act: string): Promise<boolean> {
  return (await tx.auditRow.findFirst({ where: { cafeId, subjectId, act }, select: { id: true } })) !== null
}

/** The detail of the newest line of this act on a subject; null where there is no such line, or none with detail. */
export async function findAuditDetail(db: Db | Tx, cafeId: string, subjectId: string, act: string) {
  const row = await db.auditRow.findFirst({
    where: { cafeId, subjectId, act },
    orderBy: [{ at: 'desc' }, { id: 'desc' }],
    select: { detail: true },
  })
  return row?.detail ?? null
}

/**
 * The newest lines of a café's diary; after a given one, those below it. Many lines may be of one millisecond, so a line's
 * place is its time and its id.
 */
export async function findAudit(db: Db | Tx, cafeId: string, below: string | null, howMany: number) {
  const last = below === null ? null : await db.auditRow.findFirst({ where: { cafeId, id: below } })
  return db.auditRow.findMany({
    where: {
      cafeId,
      ...(last ? { at: { lte: last.at }, OR: [{ at: { lt: last.at } }, { id: { lt: last.id } }] } : {}),
    },
    orderBy: [{ at: 'desc' }, { id: 'desc' }],
    take: howMany,
  })
}
