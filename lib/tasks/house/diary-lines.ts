import 'server-only'
import type { findAudit } from '@/lib/db/audit'
import { findNames } from '@/lib/db/people'
import { findSubjectNames, type SubjectName } from '@/lib/db/subjects'
import type { Actor, World } from '../world'

export type DiaryRow = Awaited<ReturnType<typeof findAudit>>[number]

export interface DiaryEntry {
  readonly id: string
  readonly at: Date
  readonly who: string
  readonly act: string
  readonly subjectKind: string
  readonly subjectId: string
  /** null for what has no name, and for what is gone */
  readonly subject: SubjectName | null
  readonly detail: Readonly<Record<string, unknown>> | null
}

/** Rows of the diary with the names of who and what they speak of, in the order given. */
export async function diaryLines(world: World, actor: Actor, rows: readonly DiaryRow[]): Promise<DiaryEntry[]> {
  const [names, subjects] = await Promise.all([
    findNames(
      world.db,
      rows.flatMap((row) => (row.actorId ? [row.actorId] : [])),
    ),
    findSubjectNames(
      world.db,
      actor.cafeId,
      rows.map((row) => ({ kind: row.subjectKind, id: row.subjectId })),
    ),
  ])
  return rows.map((row) => ({
    id: row.id,
    at: row.at,
    who: row.actorKind === 'taster' ? 'a taster' : row.actorId ? (names.get(row.actorId) ?? 'somebody') : 'the machine',
    act: row.act,
    subjectKind: row.subjectKind,
    subjectId: row.subjectId,
    subject: subjects.get(row.subjectId) ?? null,
    detail: row.detail ? (JSON.parse(row.detail) as Record<string, unknown>) : null,
  }))
}
