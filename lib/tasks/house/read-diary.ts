import 'server-only'
import { findAudit } from '@/lib/db/audit'
import { findNames } from '@/lib/db/people'
import { findSubjectNames, type SubjectName } from '@/lib/db/subjects'
import type { Actor, World } from '../world'

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

const PAGE = 100

/** One page of the diary, newest first. @param below  id of the last line of the page before; null for the first page */
export async function readDiary(
  world: World,
  actor: Actor,
  below: string | null,
): Promise<{ readonly lines: readonly DiaryEntry[]; readonly more: boolean }> {
  const found = await findAudit(world.db, actor.cafeId, below, PAGE + 1)
  const rows = found.slice(0, PAGE)
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
  const lines = rows.map((row) => ({
    id: row.id,
    at: row.at,
    who: row.actorKind === 'taster' ? 'a taster' : row.actorId ? (names.get(row.actorId) ?? 'somebody') : 'the machine',
    act: row.act,
    subjectKind: row.subjectKind,
    subjectId: row.subjectId,
    subject: subjects.get(row.subjectId) ?? null,
    detail: row.detail ? (JSON.parse(row.detail) as Record<string, unknown>) : null,
  }))
  return { lines, more: found.length > PAGE }
}
